// Lists of callbacks, and jobs for the intake.
import { mayFind, type Group } from '@backsight/domain/callbacks/find';
import { searchJobs, type JobForCallback } from '@backsight/store/callbacks/job';
import { countGroups, findNumbers } from '@backsight/store/callbacks/find';
import { listCallbacks as listLines, type CallbackLine } from '@backsight/store/callbacks/list';
import type { Reader } from '@backsight/store/database';
import { accept } from '@backsight/domain/shared/outcome';
import { onlyOwn } from '../jobs/steps/onlyOwn.ts';
import { seesOpinions } from './steps/callback.ts';
import { wantedOf, type FindInput } from './steps/wanted.ts';

export type ListInput = FindInput & { before: number | null };

/** So many that all open ones of a firm stand on one page, by what is due first. */
const OPEN_ON_A_PAGE = 500;
const PAGE = 50;
const DAY_MS = 86_400_000;

/** Whether the clock that is due next has run out. */
export function clockOf({ clock, dueAt }: Pick<CallbackLine, 'clock' | 'dueAt'>, now: Date) {
  if (clock === null || dueAt === null) return null;
  return {
    clock,
    dueAt: dueAt.toISOString(),
    overdue: dueAt < now,
    dueWithinDay: dueAt >= now && dueAt.getTime() - now.getTime() <= DAY_MS,
  };
}

/** Those that fit, the newest first and page by page; on a page of open ones danger first, then what is overdue longest. */
export async function listCallbacks(reader: Reader, input: ListInput) {
  const may = mayFind(input.roles, input.find);
  if (!may.ok) return may;
  const open = input.which === 'open';
  const most = open ? OPEN_ON_A_PAGE : PAGE;
  const rows = await listLines(reader, await findNumbers(reader, wantedOf(input), input.before, most + 1));
  const page = rows.slice(0, most);
  const next = rows.length > most ? String(page.at(-1)!.number) : null;
  const items = page.map(({ clock, dueAt, ...row }) => ({
    ...row,
    receivedAt: row.receivedAt.toISOString(),
    clock: clockOf({ clock, dueAt }, input.now),
  }));
  const due = (item: (typeof items)[number]): string => item.deadlineOn ?? item.clock?.dueAt ?? '9999';
  if (open) items.sort((a, b) => Number(b.safety) - Number(a.safety) || (due(a) < due(b) ? -1 : due(a) > due(b) ? 1 : b.number - a.number));
  return accept({ items, next });
}

/** How many fit in each group; sums of money only for owner and lead inspector. Counts of pairs are no rates: who went where decides them. */
export async function groupCallbacks(reader: Reader, input: FindInput & { by: Group }) {
  const may = mayFind(input.roles, input.find, { by: input.by });
  if (!may.ok) return may;
  const groups = await countGroups(reader, wantedOf(input), input.by);
  return accept(
    groups.map(({ key, label, procedureId, callbacks, open, ...money }) => ({
      key,
      label,
      procedureId,
      callbacks,
      open,
      ...(seesOpinions(input.roles) ? { money } : {}),
    })),
  );
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
export const findJobs = async (reader: Reader, { text, actor }: { text: string; actor: Parameters<typeof onlyOwn>[0] }) =>
  (await searchJobs(reader, { text: text.trim(), only: onlyOwn(actor) })).map(forIntake);
