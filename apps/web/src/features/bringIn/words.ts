// How the screens speak of spreadsheets and of what they hold.
import type { BringIn, BringInCounts, RecordKind } from '@backsight/contract/firm/bringIns';

export const STATES: Record<BringIn['state'], string> = {
  to_map: 'waits for its columns',
  checking: 'is being looked through',
  checked: 'looked through, not brought in',
  bringing: 'is being brought in',
  done: 'brought in',
  undoing: 'is being taken out',
  undone: 'taken out again',
  thrown_away: 'thrown away',
};

/** What one chooses between, and what comes of it. */
export const ABOUT: Record<RecordKind, string> = {
  people: 'Staff and inspectors, also those who have left. Nobody gets a password or a mail; you invite each from their page.',
  clients: 'Whoever ordered an inspection. Not needed for clients of past jobs: they come along with them.',
  properties: 'Houses with what is known of them. Not needed for houses of past jobs: they come along with them.',
  jobs: 'One line for each inspection: the day, the house, the client, who went. Bring the people in before.',
};

const ONE: Record<RecordKind, readonly [string, string]> = {
  people: ['person', 'people'],
  clients: ['client', 'clients'],
  properties: ['property', 'properties'],
  jobs: ['past job', 'past jobs'],
};
const number = (n: number): string => n.toLocaleString('en-US');

/** '1 past job', '4,812 past jobs'. */
export const manyOf = (kind: RecordKind, n: number): string => `${number(n)} ${ONE[kind][n === 1 ? 0 : 1]}`;
export const rowsOf = (n: number): string => `${number(n)} ${n === 1 ? 'row' : 'rows'}`;

/** What a check or a bringing in came to, line by line. */
export function countLines(kind: RecordKind, c: BringInCounts, done: boolean): { key: string; n: number; says: string }[] {
  const along = [c.clients > 0 ? manyOf('clients', c.clients) : '', c.properties > 0 ? manyOf('properties', c.properties) : '']
    .filter(Boolean)
    .join(' and ');
  return [
    { key: 'fresh', n: c.fresh, says: `${done ? 'brought in' : 'new'}${along === '' ? '' : `, with ${along} that were not on file`}` },
    { key: 'known', n: c.known, says: kind === 'jobs' ? 'on file already (same house, same day)' : 'on file already' },
    { key: 'left', n: c.left, says: done ? 'left out' : 'to put right, or to leave out' },
  ];
}

const PARTINGS: Readonly<Record<string, string>> = { ',': 'commas', ';': 'semicolons', '\t': 'tabs', '|': 'bars' };
/** '12 rows, parted by semicolons, in the letters of Windows-1252'. */
export const readAs = ({ rows, parting, letters }: Pick<BringIn, 'rows' | 'parting' | 'letters'>): string =>
  `${rowsOf(rows)}, parted by ${PARTINGS[parting] ?? `"${parting}"`}, letters as ${letters}`;

const PHASES = {
  reading: 'Reading the rows',
  comparing: 'Holding them against what is on file',
  writing: 'Writing',
  'taking out': 'Taking out again',
} as const;
export const progressText = (progress: BringIn['progress']): string =>
  progress === null ? 'Waiting for its turn' : `${PHASES[progress.phase]}: ${number(progress.done)} of ${number(progress.total)}`;
