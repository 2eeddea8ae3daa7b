// Lists of callbacks, and jobs for the intake.
import { DateTime } from 'luxon';
import type { Kind } from '@backsight/domain/callbacks/words';
import type { Role } from '@backsight/domain/people/roles';
import { searchJobs, type JobForCallback } from '@backsight/store/callbacks/job';
import { listCallbacks as listLines, type CallbackLine } from '@backsight/store/callbacks/list';
import type { Reader } from '@backsight/store/database';
import { isOwner } from './steps/callback.ts';

export type ListInput = { which: 'open' | 'closed' | 'all'; kind: Kind | null; before: number | null; roles: readonly Role[]; now: Date };

const OPEN_AT_MOST = 500;
const PAGE = 50;

/** Whether the clock that is due next has run out. */
export function clockOf({ clock, dueAt }: Pick<CallbackLine, 'clock' | 'dueAt'>, now: Date) {
  if (clock === null || dueAt === null) return null;
  return {
    clock,
    dueAt: dueAt.toISOString(),
    overdue: dueAt < now,
    dueWithinDay: dueAt >= now && DateTime.fromJSDate(dueAt).diff(DateTime.fromJSDate(now), 'hours').hours <= 24,
  };
}

/** Open ones: danger first, then what is overdue longest. Others by number, newest first. */
export async function listCallbacks(reader: Reader, input: ListInput) {
  const open = input.which === 'open';
  const limit = open ? OPEN_AT_MOST : PAGE + 1;
  const rows = await listLines(reader, {
    which: input.which,
    kind: input.kind,
    before: open ? null : input.before,
    seeOwnerOnly: isOwner(input.roles),
    limit,
  });
  const page = open ? rows : rows.slice(0, PAGE);
  const items = page.map(({ clock, dueAt, ...row }) => ({
    ...row,
    receivedAt: row.receivedAt.toISOString(),
    clock: clockOf({ clock, dueAt }, input.now),
  }));
  const due = (item: (typeof items)[number]): string => item.deadlineOn ?? item.clock?.dueAt ?? '9999';
  if (open) items.sort((a, b) => Number(b.safety) - Number(a.safety) || (due(a) < due(b) ? -1 : 1));
  return { items, next: !open && rows.length > PAGE ? String(page.at(-1)!.number) : null };
}

const forIntake = ({ id, number, kind, address, town, inspectedOn, pair, parties }: JobForCallback) => ({
  id,
  number,
  kind,
  address,
  town,
  inspectedOn,
  pair: pair.map(({ name }) => name),
  parties: parties.map(({ id: partyId, name, role, signed, email }) => ({ id: partyId, name, role, signed, hasEmail: email !== null })),
});

/** Jobs found by number, address, town or name. */
export const findJobs = async (reader: Reader, text: string) => (await searchJobs(reader, text.trim())).map(forIntake);
