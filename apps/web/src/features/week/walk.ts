// Walking from visit to visit with the arrow keys, nothing in hand.
import type { Row } from './geometry.ts';

/** A visit as it stands on the board: its row, its day (index) and its start. */
export type Stand = { row: number; at: number; start: number; id: string };

export const buttonId = (visitId: string, personId: string): string => `visit-${visitId}-${personId}`;

export const standsOf = (rows: readonly Row[]): Stand[] =>
  rows.flatMap(({ person, strips }, row) =>
    strips.flatMap(({ blocks }, at) => blocks.map(({ visit, start }) => ({ row, at, start, id: buttonId(visit.id, person.id) }))),
  );

const time = ({ at, start }: Stand): number => at * 1440 + start;

function inRow(stands: readonly Stand[], here: Stand, key: string): Stand | undefined {
  const own = stands.filter(({ row }) => row === here.row).sort((a, b) => time(a) - time(b));
  const now = own.findIndex(({ id }) => id === here.id);
  return key === 'Home' ? own[0] : key === 'End' ? own.at(-1) : own[key === 'ArrowLeft' ? now - 1 : now + 1];
}

/** Up or down to the nearest row with a visit, and there to the one nearest in time. */
function acrossRows(stands: readonly Stand[], here: Stand, by: 1 | -1): Stand | undefined {
  const rows = stands.map(({ row }) => row).filter((row) => (row - here.row) * by > 0);
  const row = by > 0 ? Math.min(...rows) : Math.max(...rows);
  const apart = (one: Stand): number => Math.abs(time(one) - time(here));
  return stands.filter((one) => one.row === row).sort((a, b) => apart(a) - apart(b))[0];
}

/** The visit that a key leads to; null where it leads nowhere. */
export function walk(stands: readonly Stand[], id: string, key: string): string | null {
  const here = stands.find((one) => one.id === id);
  if (!here) return null;
  const to =
    key === 'ArrowDown'
      ? acrossRows(stands, here, 1)
      : key === 'ArrowUp'
        ? acrossRows(stands, here, -1)
        : ['ArrowLeft', 'ArrowRight', 'Home', 'End'].includes(key)
          ? inRow(stands, here, key)
          : undefined;
  return to?.id ?? null;
}
