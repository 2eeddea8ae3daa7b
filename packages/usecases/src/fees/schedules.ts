// Fee schedules: drafted from the one in force, changed, put in force from a day, taken back before it begins.
import type { FeeSchedule } from '@backsight/domain/fees/schedule';
import { instantOf } from '@backsight/domain/schedule/wallClock';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { addDraft, deleteDraft, findSchedule, saveDraft, setState, type ScheduleRow } from '@backsight/store/fees/schedules';
import { listServices } from '@backsight/store/jobs/services';
import { localDay } from '../firm/steps/localDay.ts';
import type { Act, Work } from '../run.ts';

type Changed = { id: string; version: number };

/** A draft that begins as a copy. */
export const draftSchedule: Act<{ id: string; name: string; copyOf: string }, Changed> = { operation: 'fees.draft-schedule', run: draft };

async function draft(work: Work, { id, name, copyOf }: { id: string; name: string; copyOf: string }): Promise<Outcome<Changed>> {
  const from = await findSchedule(work.tx, copyOf);
  if (!from) return refuse('not-found', { thing: 'fee schedule' });
  const number = await addDraft(work.tx, { id, name, body: from.body, at: work.now });
  await work.did('fee-schedule', id, { number, copyOf });
  return accept({ id, version: 1 });
}

const STATES = { draft: 'a draft', in_force: 'in force', withdrawn: 'withdrawn' } as const;

async function found(work: Work, id: string, version: number): Promise<Outcome<ScheduleRow>> {
  const row = await findSchedule(work.tx, id);
  if (!row) return refuse('not-found', { thing: 'fee schedule' });
  return row.version === version ? accept(row) : refuse('changed-meanwhile');
}

/** A price of a service that the firm does not have would never be charged. */
async function servicesKnown(work: Work, { rules }: FeeSchedule): Promise<Outcome<null>> {
  const known = new Set((await listServices(work.tx)).map(({ key }) => key));
  const at = rules.findIndex((rule) => rule.kind === 'addOn' && !known.has(rule.service));
  const rule = rules[at];
  return rule?.kind === 'addOn' ? refuse('fee-schedule-service', { service: rule.service }, `rules.${at}.service`) : accept(null);
}

export type ChangeInput = { id: string; version: number; name: string; rules: FeeSchedule['rules'] };

/** Refusals: fee-schedule-fixed, fee-schedule-service. */
export const changeSchedule: Act<ChangeInput, Changed> = { operation: 'fees.change-schedule', run: change };

async function change(work: Work, { id, version, name, rules }: ChangeInput): Promise<Outcome<Changed>> {
  const row = await found(work, id, version);
  if (!row.ok) return row;
  if (row.value.state !== 'draft') return refuse('fee-schedule-fixed', { state: STATES[row.value.state] });
  const known = await servicesKnown(work, { rules });
  if (!known.ok) return known;
  if (!(await saveDraft(work.tx, id, version, { name, body: { rules } }))) return refuse('changed-meanwhile');
  await work.did('fee-schedule', id, { number: row.value.number, rules: rules.length });
  return accept({ id, version: version + 1 });
}

export type ForceInput = { id: string; version: number; fromDay: string };

/** From midnight of the day in the firm's zone; from now on where that is today. Jobs keep the schedule of their booking. */
export const putScheduleInForce: Act<ForceInput, { id: string; version: number; inForceFrom: string }> = {
  operation: 'fees.put-schedule-in-force',
  run: putInForce,
};

async function putInForce(
  work: Work,
  { id, version, fromDay }: ForceInput,
): Promise<Outcome<{ id: string; version: number; inForceFrom: string }>> {
  const row = await found(work, id, version);
  if (!row.ok) return row;
  if (row.value.state !== 'draft') return refuse('fee-schedule-fixed', { state: STATES[row.value.state] });
  const known = await servicesKnown(work, row.value.body);
  if (!known.ok) return known;
  const { today, zone } = await localDay(work.tx, work.now);
  if (fromDay < today) return refuse('fee-schedule-back', { today }, 'fromDay');
  const at = instantOf(fromDay, 0, zone);
  const midnight = at.ok ? at : instantOf(fromDay, 60, zone);
  if (!midnight.ok) return midnight;
  const inForceFrom = fromDay === today ? work.now : midnight.value;
  if (!(await setState(work.tx, id, version, { state: 'in_force', inForceFrom }))) return refuse('changed-meanwhile');
  await work.did('fee-schedule', id, { number: row.value.number, inForceFrom: inForceFrom.toISOString() });
  return accept({ id, version: version + 1, inForceFrom: inForceFrom.toISOString() });
}

/** A draft is thrown away; one that begins on a day to come is withdrawn. Refusals: fee-schedule-begun, fee-schedule-fixed. */
export const dropSchedule: Act<{ id: string; version: number }, { id: string }> = { operation: 'fees.drop-schedule', run: drop };

async function drop(work: Work, { id, version }: { id: string; version: number }): Promise<Outcome<{ id: string }>> {
  const row = await found(work, id, version);
  if (!row.ok) return row;
  const { state, inForceFrom, number } = row.value;
  if (state === 'withdrawn') return refuse('fee-schedule-fixed', { state: STATES.withdrawn });
  if (state === 'in_force' && inForceFrom! <= work.now) return refuse('fee-schedule-begun');
  const done =
    state === 'draft'
      ? (await deleteDraft(work.tx, id, version)) === 1
      : await setState(work.tx, id, version, { state: 'withdrawn', inForceFrom });
  if (!done) return refuse('changed-meanwhile');
  await work.did('fee-schedule', id, { number, was: state });
  return accept({ id });
}
