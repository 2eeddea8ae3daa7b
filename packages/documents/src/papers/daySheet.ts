// The day of a pair on paper: where, when, how to get in, whom to call, what to carry, what is due.
import type { Block } from '../pdf/content.ts';

type Contact = { name: string; role: string; phone: string | null };
export type SheetVisit = {
  /** Time of day in words, and what kind of visit. */
  when: string;
  kind: string;
  job: number;
  address: string;
  pair: readonly string[];
  services: readonly string[];
  kit: readonly string[];
  access: readonly string[];
  /** Whom to call; or, in words, why they do not stand here. */
  contacts: string | readonly Contact[];
  /** What is to be done by when, as sentences. */
  due: readonly string[];
};

const calls = ({ name, role, phone }: Contact): string => `${name}, ${role}: ${phone ?? 'no number on file'}`;
const listed = (words: readonly string[], none: string): string => (words.length > 0 ? words.join('; ') : none);

export const daySheetBlocks = (visits: readonly SheetVisit[]): Block[] =>
  visits.length === 0 ? [{ kind: 'text', words: 'No visit on this day.' }] : visits.flatMap(visitBlocks);

const visitBlocks = (visit: SheetVisit): Block[] => [
  { kind: 'heading', level: 2, words: `${visit.when}: ${visit.address}` },
  {
    kind: 'facts',
    pairs: [
      ['Visit', `${visit.kind}, job ${visit.job}`],
      ['Pair', listed(visit.pair, 'not set')],
      ['To do', listed(visit.services, 'see the job')],
      ['Call', typeof visit.contacts === 'string' ? visit.contacts : visit.contacts.map(calls).join('\n') || 'nobody is on file'],
      ['Getting in', listed(visit.access, 'nothing noted: call before setting out')],
      ['Carry', listed(visit.kit, 'the usual')],
      ['Due', listed(visit.due, 'nothing besides the visit')],
    ],
  },
];
