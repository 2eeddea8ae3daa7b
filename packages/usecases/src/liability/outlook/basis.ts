// What an outlook rests on, as it was recorded by an instant.
import { DateTime } from 'luxon';
import { development } from '@backsight/domain/liability/development/triangle';
import { COSTS_KNOWN_AFTER_DAYS, costKind, ENOUGH, MOST_COSTS, ripe, type Ripening } from '@backsight/domain/liability/outlook/scenario';
import { chainLadder } from '@backsight/statistics/reserving/chainLadder';
import type { OutlookBasis } from '@backsight/statistics/simulation/outlook';
import { findFirm } from '@backsight/store/firm';
import { listPolicies, type PolicyRow } from '@backsight/store/firm/authority';
import { figures, stepFigures, type Figure } from '@backsight/store/liability/figures';
import { keysOfLine } from '@backsight/store/lineage';
import { costsOfCallbacks, dutyMinutesOfWeek, minutesOnSite, weeksOfJobs, type WeekRow } from '@backsight/store/liability/outlook';
import { stepLines } from '@backsight/store/liability/steps';
import type { Reader } from '@backsight/store/database';

export type StepChoice = { key: string; title: string; traced: number };

/** Everything that an outlook is counted from and says of itself. */
export type Past = {
  asOf: Date;
  /** First Monday and, two years on, the Monday after the last week. */
  from: string;
  until: string;
  weeks: WeekRow[];
  basis: OutlookBasis;
  policy: PolicyRow | null;
  /** Whether callbacks still to come are in the rate: the chain ladder could tell how they ripen. */
  ripened: boolean;
  costsKnown: number;
  onSite: { minutes: number | null; records: number };
  dutyMinutesOfWeek: number;
  steps: StepChoice[];
  step: StepChoice | null;
};

const sumOf = (rows: readonly Figure[], measure: string): number =>
  rows.reduce((sum, row) => sum + (row.measure === measure ? row.amount : 0), 0);

/** The past as it was known at `asOf`; `stepKey` names the step that the scenario is about. */
export async function readPast(reader: Reader, { asOf, stepKey }: { asOf: Date; stepKey: string | null }): Promise<Past> {
  const zone = (await findFirm(reader))?.zone ?? 'UTC';
  const monday = DateTime.fromJSDate(asOf, { zone }).startOf('week');
  const [from, lastYear] = [monday.toISODate()!, monday.minus({ weeks: 52 }).toISODate()!];
  const [weeks, all, traced, lines, policies] = [
    await weeksOfJobs(reader, lastYear, from),
    await figures(reader, { grouping: 'all', measures: ['jobs', 'fees', 'callbacks'], asOf }),
    await figures(reader, { grouping: 'step', measures: ['failures'], asOf }),
    await stepLines(reader),
    await listPolicies(reader),
  ];
  const today = DateTime.fromJSDate(asOf, { zone }).toISODate()!;
  const steps = lines.map(({ root, title }) => ({
    key: root,
    title,
    traced: sumOf(
      traced.filter(({ value }) => value === root),
      'failures',
    ),
  }));
  const step = steps.find(({ key }) => key === stepKey) ?? null;
  const year = all.filter(({ origin }) => origin >= lastYear.slice(0, 7));
  const jobsOfYear = weeks.reduce((sum, { jobs }) => sum + jobs, 0);
  const callbacks = ripenessOf(all, today);
  const cents = await costsOfCallbacks(reader, {
    until: monday.minus({ days: COSTS_KNOWN_AFTER_DAYS }).toJSDate(),
    asOf,
    most: MOST_COSTS,
  });
  const kind = costKind(cents);
  return {
    asOf,
    from,
    until: monday.plus({ weeks: 104 }).toISODate()!,
    weeks,
    policy: policies.find((one) => one.kind === 'professional' && one.startsOn <= today && today <= one.endsOn) ?? null,
    ripened: callbacks.ripened,
    costsKnown: cents.length,
    onSite: await minutesOnSite(reader, asOf),
    dutyMinutesOfWeek: await dutyMinutesOfWeek(reader, today),
    steps,
    step,
    basis: {
      jobsOfYear,
      years: 2,
      feeCents: sumOf(year, 'jobs') === 0 ? 0 : sumOf(year, 'fees') / sumOf(year, 'jobs'),
      minutesPerJob: jobsOfYear === 0 ? 0 : weeks.reduce((sum, { plannedMinutes }) => sum + plannedMinutes, 0) / jobsOfYear,
      callbacks: callbacks.counted < ENOUGH.callbacks || callbacks.ripeJobs <= 0 ? null : callbacks,
      costs: kind === null ? null : { kind, cents },
      step: step && {
        traced: Math.min(step.traced, callbacks.counted),
        timesPerJob: await timesPerJob(reader, step.key, sumOf(year, 'jobs'), lastYear.slice(0, 7)),
      },
    },
  };
}

/** Callbacks known and the jobs that are ripe for them, by quarters of inspection that are over; from a year of age on where nothing shows how they ripen. */
function ripenessOf(all: readonly Figure[], asOf: string) {
  const { origins, folded } = development(all, { grain: 'quarter', of: 'callbacks', asOf });
  const whole = origins.filter((one) => one.whole > 0);
  const ladder = chainLadder({
    origins: whole.map(({ name }) => name),
    cumulative: whole.map(({ cells, whole: known }) => cells.slice(0, known)),
  });
  const old: Ripening[] = folded ? [{ jobs: folded.jobs, known: folded.latest, factorToUltimate: 1 }] : [];
  if (ladder.ok) {
    const quarters = whole.map(({ jobs }, at) => ({
      jobs,
      known: ladder.origins[at]!.latest,
      factorToUltimate: ladder.origins[at]!.factorToUltimate,
    }));
    return { ripened: true, ...ripe([...old, ...quarters]) };
  }
  const aged = whole.filter((one) => one.whole > 4).map(({ jobs, latest }) => ({ jobs, known: latest, factorToUltimate: 1 }));
  return { ripened: false, ...ripe([...old, ...aged]) };
}

/** How often a step applies on a job of the year, mean over all jobs. */
async function timesPerJob(reader: Reader, root: string, jobs: number, fromMonth: string): Promise<number> {
  const rows = await stepFigures(reader, { stepKeys: await keysOfLine(reader, root) });
  const times = rows.filter(({ month }) => month >= fromMonth).reduce((sum, row) => sum + row.times, 0);
  return jobs === 0 ? 0 : times / jobs;
}
