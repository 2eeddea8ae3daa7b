// Fee schedules read: the list, one in words beside another, a price under two at once, and the jobs of a period under both.
import { compareRevenue, compareSchedules } from '@backsight/domain/fees/compareSchedules';
import { quoteFee } from '@backsight/domain/fees/quote';
import { ruleInWords } from '@backsight/domain/fees/ruleWords';
import type { FeeSchedule } from '@backsight/domain/fees/schedule';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import { shiftDay } from '@backsight/domain/shared/calendar';
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { estimatedTravel } from '@backsight/scheduling/travel';
import type { Reader } from '@backsight/store/database';
import { findSchedule, jobsBetween, listSchedules, scheduleInForce, type ScheduleRow } from '@backsight/store/fees/schedules';
import { listServices } from '@backsight/store/jobs/services';

const serviceNames = async (reader: Reader): Promise<Record<string, string>> =>
  Object.fromEntries((await listServices(reader)).map(({ key, name }) => [key, name]));

const headOf = ({ id, number, name, state, inForceFrom, recordedAt, version, body }: ScheduleRow) => ({
  id,
  number,
  name,
  state,
  inForceFrom: inForceFrom?.toISOString() ?? null,
  recordedAt: recordedAt.toISOString(),
  version,
  rules: body.rules.length,
});

/** `now` marks the one by which a job is priced that is booked now. */
export async function readSchedules(reader: Reader, now: Date) {
  const current = await scheduleInForce(reader, now);
  const rows = await listSchedules(reader);
  return { items: rows.map((row) => ({ ...headOf(row), jobs: row.jobs, now: row.id === current?.id })) };
}

/** With its rules, each in words, and how it differs from another; from the one in force where none is named. */
export async function readSchedule(reader: Reader, { id, besideId, now }: { id: string; besideId: string | undefined; now: Date }) {
  const row = await findSchedule(reader, id);
  const beside = besideId === undefined ? await scheduleInForce(reader, now) : await findSchedule(reader, besideId);
  if (!row || !beside) return refuse('not-found', { thing: 'fee schedule' });
  const names = await serviceNames(reader);
  return accept({
    ...headOf(row),
    rules: [...row.body.rules],
    words: row.body.rules.map((rule) => ({ key: rule.key, text: ruleInWords(rule, names) })),
    beside: { id: beside.id, number: beside.number, name: beside.name },
    differences: compareSchedules(beside.body, row.body, names),
    services: names,
  });
}

export type WhatIf = { facts: PropertyFacts; services: string[]; day: string; travelMinutes: number | null; startMinute: number | null };

/** What rules that need not be saved would charge for one house, beside those in force. */
export async function tryRules(reader: Reader, now: Date, { rules, ...asked }: WhatIf & { rules: FeeSchedule['rules'] }) {
  const current = await scheduleInForce(reader, now);
  if (!current) return refuse('not-set-up', { what: 'fee schedule' });
  const context = { ...asked, serviceNames: await serviceNames(reader) };
  return accept({
    tried: quoteFee({ rules }, context),
    now: quoteFee(current.body, context),
    words: rules.map((rule) => ({ key: rule.key, text: ruleInWords(rule, context.serviceNames) })),
  });
}

export type OverJobs = { id: string; besideId: string; from: string; until: string };

/** What two schedules would have charged for the inspections of a period. Driving is estimated by distance for both alike. Refusals: period-too-long. */
export async function compareOverJobs(reader: Reader, { id, besideId, from, until }: OverJobs) {
  if (until < from || until > shiftDay(from, 3 * 366)) return refuse('period-too-long', {}, 'until');
  const row = await findSchedule(reader, id);
  const beside = await findSchedule(reader, besideId);
  if (!row || !beside) return refuse('not-found', { thing: 'fee schedule' });
  const names = await serviceNames(reader);
  const jobs = (await jobsBetween(reader, from, until)).map(({ facts, services, day, minute, lat, lon, officeLat, officeLon }) => ({
    facts,
    services,
    day,
    serviceNames: names,
    startMinute: minute,
    travelMinutes: estimatedTravel.minutes({ lat: officeLat, lon: officeLon }, { lat, lon }),
  }));
  return accept(compareRevenue(beside.body, row.body, jobs));
}
