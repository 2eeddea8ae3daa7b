// The client's report: drafted from the sealed site record, and the conditions under which it leaves the firm.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import type { EntryMatch, StepOutcome } from './value.ts';

/** One standing entry as the report may use it; `answer` and `note` are words. */
export type ReportSource = {
  stepKey: string;
  itemId: string | null;
  title: string;
  item: string | null;
  system: string;
  procedure: string;
  outcome: StepOutcome;
  answer: string;
  match: EntryMatch;
  note: string | null;
  /** Something was said in a spoken note, which the writer listens to. */
  spoken: boolean;
};

export type ReportLine = { title: string; item: string | null; answer: string; note: string | null };
export type ReportBody = {
  /** Defects first, in the writer's words. */
  summary: { system: string; text: string }[];
  systems: { system: string; lines: ReportLine[] }[];
  notInspected: { system: string; title: string; item: string | null; why: string }[];
};
export type Defect = { stepKey: string; itemId: string | null; text: string };

const notInspected = ({ outcome }: ReportSource): boolean => outcome !== 'done' && outcome !== 'none_at_property';
const lineOf = ({ title, item, answer, note }: ReportSource): ReportLine => ({ title, item, answer, note });

/**
 * Drafts the report: the summary of defects first (as Wisconsin SPS 131.33 asks of a written report), then system by system
 * what was inspected, then what was not and why. Steps at the door and on leaving are the firm's own and are left out.
 */
export function draftReport(entries: readonly ReportSource[], defects: readonly Defect[]): ReportBody {
  const ofHouse = entries.filter(({ system }) => system !== 'arrival' && system !== 'leaving');
  const systems = [...new Set(ofHouse.map(({ procedure }) => procedure))];
  const inspected = ofHouse.filter((entry) => entry.outcome === 'done');
  return {
    summary: defects.map(({ stepKey, itemId, text }) => ({
      system: entries.find((e) => e.stepKey === stepKey && e.itemId === itemId)?.procedure ?? '',
      text,
    })),
    systems: systems
      .map((system) => ({ system, lines: inspected.filter(({ procedure }) => procedure === system).map(lineOf) }))
      .filter(({ lines }) => lines.length > 0),
    notInspected: ofHouse.filter(notInspected).map((entry) => ({
      system: entry.procedure,
      title: entry.title,
      item: entry.item,
      why: entry.note === null ? entry.answer : `${entry.answer} (${entry.note})`,
    })),
  };
}

/** What the writer should look at first: outside the range, or a count that does not match. The writer decides what is a defect. */
export const worthALook = (entry: ReportSource): boolean => entry.match === 'outside' || entry.match === 'differs';

export type HandOverState = {
  sealed: boolean;
  signed: boolean;
  paid: boolean;
  payLater: boolean;
};
export type HandOverCode = 'record-unsealed' | 'agreement-unsigned' | 'fee-unpaid';
export const HAND_OVER_WANTS: Record<HandOverCode, string> = {
  'record-unsealed': 'the site record is sealed',
  'agreement-unsigned': 'the agreement is signed',
  'fee-unpaid': 'the fee is paid',
};

/** What is missing before the report may leave. */
export const handOverMissing = (facts: HandOverState): HandOverCode[] => [
  ...(facts.sealed ? [] : (['record-unsealed'] as const)),
  ...(facts.signed ? [] : (['agreement-unsigned'] as const)),
  ...(facts.paid || facts.payLater ? [] : (['fee-unpaid'] as const)),
];

/** `letPass`: codes that an override names. */
export type HandOverFacts = HandOverState & {
  recipient: { name: string; isClient: boolean; consent: boolean };
  letPass?: readonly string[];
};

/**
 * A report leaves when the record is sealed, the agreement signed and the fee settled, or what is missing was let pass with a reason; to
 * others only with the client's written consent (as 68 Ill. Adm. Code 1410.250(g) asks). The seal is never let pass.
 */
export function mayHandOver(facts: HandOverFacts): Outcome<null> {
  const missing = handOverMissing(facts)
    .filter((code) => code === 'record-unsealed' || !(facts.letPass ?? []).includes(code))
    .map((code) => HAND_OVER_WANTS[code]);
  if (missing.length > 0) return refuse('report-not-ready', { why: missing.join(' and '), missing });
  const { isClient, consent, name } = facts.recipient;
  return isClient || consent ? accept(null) : refuse('report-recipient', { name });
}

const SHORTEST_REASON = 10;

/** What an override lets pass: all that is missing but the seal. Refuses when nothing can be let pass, or the reason says too little. */
export function mayLetHandOver(facts: HandOverState, reason: string): Outcome<HandOverCode[]> {
  const missing = handOverMissing(facts).filter((code) => code !== 'record-unsealed');
  if (missing.length === 0) return refuse('gate-is-open');
  return reason.trim().length < SHORTEST_REASON ? refuse('reason-too-short', {}, 'reason') : accept(missing);
}

/** The report as the plain text of a mail. */
export function reportText(body: ReportBody, head: readonly string[]): string {
  const line = (l: ReportLine): string =>
    `- ${l.title}${l.item === null ? '' : ` (${l.item})`}: ${l.answer}${l.note === null ? '' : `. ${l.note}`}`;
  return [
    ...head,
    '',
    'SUMMARY OF DEFECTS',
    ...(body.summary.length === 0
      ? ['None was noted.']
      : body.summary.map(({ system, text }) => `- ${system ? `${system}: ` : ''}${text}`)),
    ...body.systems.flatMap(({ system, lines }) => ['', system.toUpperCase(), ...lines.map(line)]),
    '',
    'NOT INSPECTED, AND WHY',
    ...(body.notInspected.length === 0
      ? ['Nothing was left out.']
      : body.notInspected.map((n) => `- ${n.title}${n.item === null ? '' : ` (${n.item})`}: ${n.why}`)),
  ].join('\n');
}
