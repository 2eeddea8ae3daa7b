// The plain report drafted from the sealed record: defects first, then system by system, then what was left out and why.
import type { Block } from '../pdf/content.ts';

export type ReportLine = { title: string; item: string | null; answer: string; note: string | null };
export type ReportPaper = {
  job: number;
  address: string;
  version: number;
  inspectedOn: string;
  reportOn: string;
  /** null = never revised. */
  revisedOn: string | null;
  inspectedBy: readonly string[];
  preparedBy: string;
  summary: readonly { system: string; text: string }[];
  systems: readonly { system: string; lines: readonly ReportLine[] }[];
  notInspected: readonly { system: string; title: string; item: string | null; why: string }[];
};

const named = ({ title, item }: { title: string; item: string | null }): string => (item === null ? title : `${title} (${item})`);
const items = (texts: readonly string[]): Block => ({ kind: 'list', from: null, items: texts.map((words) => [{ kind: 'text', words }]) });

export const reportBlocks = (report: ReportPaper): Block[] => [
  {
    kind: 'facts',
    pairs: [
      ['Property', report.address],
      ['Job', `${report.job}, version ${report.version}`],
      ['Inspected', report.inspectedOn],
      ['Report of', report.reportOn],
      ...(report.revisedOn === null ? [] : [['Revised', report.revisedOn] as const]),
      ['Inspected by', report.inspectedBy.join('; ')],
      ['Prepared by', report.preparedBy],
    ],
  },
  { kind: 'heading', level: 2, words: 'Summary of defects' },
  report.summary.length === 0
    ? { kind: 'text', words: 'None was noted.' }
    : items(report.summary.map(({ system, text }) => (system === '' ? text : `${system}: ${text}`))),
  ...report.systems.flatMap(({ system, lines }): Block[] => [
    { kind: 'heading', level: 2, words: system },
    {
      kind: 'table',
      heads: ['What was looked at', 'Found', 'Note'],
      rows: lines.map((line) => [named(line), line.answer, line.note ?? '']),
      shares: [9, 7, 5],
    },
  ]),
  { kind: 'heading', level: 2, words: 'Not inspected, and why' },
  report.notInspected.length === 0
    ? { kind: 'text', words: 'Nothing was left out.' }
    : { kind: 'table', heads: ['Part', 'What', 'Why'], rows: report.notInspected.map((one) => [one.system, named(one), one.why]) },
];
