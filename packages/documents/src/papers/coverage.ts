// A published standard of practice and the steps that carry its duties out, on paper: gaps first, then every duty.
import type { CoveredRow, Standard } from '@backsight/domain/procedures/coverage';
import type { Block } from '../pdf/content.ts';

const duty = ({ requirement, status }: CoveredRow): string =>
  status === 'found' ? requirement : `${requirement} (from memory: read the rule before relying on it)`;
const paragraph = ({ id, citation, section }: CoveredRow): string => `${citation} ${section} (${id})`;
const metBy = ({ steps, elsewhere }: CoveredRow): string =>
  [...steps.map(({ title, procedure }) => `${title} (${procedure})`), ...(elsewhere === null ? [] : [elsewhere])].join('; ');

export const coverageBlocks = (standard: Standard, rows: readonly CoveredRow[]): Block[] => {
  const gaps = rows.filter(({ covered }) => !covered);
  return [
    {
      kind: 'facts',
      pairs: [
        ['Standard', standard.name],
        ['Where it was read', standard.source],
        ['Duties collected', String(rows.length)],
        ['Without a step', String(gaps.length)],
      ],
    },
    { kind: 'heading', level: 2, words: 'Duties that nothing in the book carries out' },
    gaps.length === 0
      ? { kind: 'text', words: 'None.' }
      : { kind: 'table', heads: ['Paragraph', 'Duty, in our summary'], rows: gaps.map((row) => [paragraph(row), duty(row)]) },
    { kind: 'heading', level: 2, words: 'Every duty and what carries it out' },
    {
      kind: 'table',
      heads: ['Paragraph', 'Duty, in our summary', 'Carried out by'],
      rows: rows.map((row) => [paragraph(row), duty(row), row.covered ? metBy(row) : 'no step']),
    },
    {
      kind: 'text',
      small: true,
      words: 'The rows were collected from published texts and are no proof that a rule asks for nothing else.',
    },
  ];
};
