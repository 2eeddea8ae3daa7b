// The address of the list of callbacks: what narrows it, how it is grouped, and the page. Whatever it says is sent as it is, so that a wrong word is told.
import type { CallbackSearch, GroupSearch } from '../../api/callbackLists.ts';

export type ListSearch = CallbackSearch & { by?: GroupSearch['by'] };

/** What narrows the list, and its name where it is said that nothing fits. */
export const PARTS = {
  q: 'the words',
  which: 'open or closed',
  kind: 'the kind',
  state: 'the state',
  speaker: 'who speaks',
  system: 'the system',
  safety: 'danger only',
  overdue: 'overdue only',
  received: 'the month received',
  inspected: 'the month inspected',
  person: 'who was on the job',
  pair: 'the pair',
  step: 'the traced step',
  revision: 'the revision',
  cause: 'the cause',
} as const satisfies Partial<Record<keyof ListSearch, string>>;
export type Part = keyof typeof PARTS;

/** Parts that are chosen under "More". */
const MORE: readonly Part[] = [
  'state',
  'speaker',
  'safety',
  'overdue',
  'received',
  'inspected',
  'person',
  'pair',
  'step',
  'revision',
  'cause',
];

const set = (search: ListSearch, part: Part): boolean => search[part] !== undefined && !(part === 'which' && search[part] === 'all');
export const partsIn = (search: ListSearch): Part[] => (Object.keys(PARTS) as Part[]).filter((part) => set(search, part));
export const showsMore = (search: ListSearch): boolean => MORE.some((part) => set(search, part));

/** What the addresses say, as strings; empty parts are left out, and an address parses a number of digits as a number. */
export const readListSearch = (raw: Record<string, unknown>): ListSearch =>
  Object.fromEntries(
    Object.entries(raw)
      .filter(([, value]) => value !== undefined && value !== '' && value !== null)
      .map(([key, value]) => [key, key === 'before' ? value : String(value)]),
  ) as ListSearch;
