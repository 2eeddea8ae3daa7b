// What the list of callbacks is narrowed to and grouped by, and who may ask for it.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import type { Role } from '../people/roles.ts';
import type { Cause, Kind, Speaker, State } from './words.ts';

/** Every part narrows; what is left out does not. Months are 'YYYY-MM', where the office is. `q` are words, a number, an address or a name. */
export type Find = {
  state?: State;
  kind?: Kind;
  speaker?: Speaker;
  system?: string;
  safety?: 'yes';
  overdue?: 'yes';
  /** Key of the step that the newest conclusion names. */
  step?: string;
  /** Revision in which it is named. */
  revision?: string;
  cause?: Cause;
  /** Somebody who was on the job. */
  person?: string;
  /** Everybody who was: ids in order, with commas between. */
  pair?: string;
  received?: string;
  inspected?: string;
  q?: string;
};

export const GROUPS = {
  system: 'system',
  received: 'month received',
  inspected: 'month inspected',
  pair: 'pair on the job',
  step: 'traced step',
  cause: 'cause',
} as const;
export type Group = keyof typeof GROUPS;

/** Parts that tell of a conclusion. */
const OF_OPINION = ['step', 'revision', 'cause'] as const;

/** Conclusions and money are for owner and lead inspector: others may neither narrow by them, group by them, nor take them along. */
export function mayFind(roles: readonly Role[], find: Find, asks: { by?: Group; opinions?: boolean; money?: boolean } = {}): Outcome<null> {
  if (roles.includes('owner') || roles.includes('lead_inspector')) return accept(null);
  const field = OF_OPINION.find((part) => find[part] !== undefined);
  if (field) return refuse('not-allowed', {}, field);
  if (asks.by && (OF_OPINION as readonly string[]).includes(asks.by)) return refuse('not-allowed', {}, 'by');
  if (asks.opinions) return refuse('not-allowed', {}, 'opinions');
  return asks.money ? refuse('not-allowed', {}, 'money') : accept(null);
}
