// An outlook over two years: as things are, and after a change that is still to come.
import { DateTime } from 'luxon';
import { decideScenario, runsFor, type Scenario } from '@backsight/domain/liability/outlook/scenario';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { OUTLOOK_MEASURES, simulateOutlook, type OutlookMeasure, type OutlookTerms } from '@backsight/statistics/simulation/outlook';
import { firmStates, listRulePacks } from '@backsight/store/firm/rulePacks';
import type { Reader } from '@backsight/store/database';
import { readPast, type Past } from './basis.ts';
import { assumptions, capCautions, lacking, yearCautions } from './words.ts';

export type Asked = { scenario: Scenario; seed: number; asOf: Date };
type Answer = Awaited<ReturnType<typeof answer>>;

/** Refusals: least-above-most, outlook-step-missing, no-policy-in-force, not-found (the step). */
export async function readOutlook(reader: Reader, { scenario, seed, asOf }: Asked): Promise<Outcome<Answer>> {
  const past = await readPast(reader, { asOf, stepKey: scenario.stepKey });
  const may = decideScenario(scenario, past.policy !== null);
  if (!may.ok) return may;
  if (scenario.stepKey !== null && !past.step) return refuse('not-found', { thing: 'step' });
  return accept(await answer(reader, past, { scenario, seed, asOf }));
}

async function answer(reader: Reader, past: Past, { scenario, seed, asOf }: Asked) {
  const { basis, policy, step, steps, from, until } = past;
  const because = lacking(past);
  const possible = OUTLOOK_MEASURES.filter((measure) => mayEstimate(measure, past));
  const rate = basis.callbacks ? basis.callbacks.counted / basis.callbacks.ripeJobs : 0;
  const runs = runsFor(rate * basis.jobsOfYear * basis.years);
  const now: OutlookTerms = { capCents: null, deductibleCents: policy?.deductibleCents ?? null, limitCents: policy?.limitCents ?? null };
  const found =
    possible.length === 0
      ? null
      : simulateOutlook(
          basis,
          now,
          {
            feeShare: scenario.feePercent / 100,
            jobsShare: scenario.jobsPercent / 100,
            capCents: scenario.capCents,
            deductibleCents: scenario.deductibleCents ?? now.deductibleCents,
            limitCents: now.limitCents,
            premiumCents: scenario.premiumCents,
            stepMinutes: scenario.stepMinutes,
            fewer: { least: scenario.fewerLeast / 100, most: scenario.fewerMost / 100 },
          },
          { seed, runs },
        );
  return {
    scenario,
    seed,
    asOf: asOf.toISOString(),
    runs,
    from,
    until,
    policy: policy && { number: policy.number, deductibleCents: policy.deductibleCents },
    stepTitle: step?.title ?? null,
    figures: found ? possible.map((measure) => ({ measure, ...found[measure] })) : [],
    quarters: found ? quartersOf(past, scenario) : [],
    because,
    assumptions: found ? assumptions(past) : [],
    cautions: [
      ...(found ? yearCautions(past) : []),
      ...(scenario.capCents === null ? [] : capCautions(await listRulePacks(reader), await firmStates(reader), from)),
    ],
    steps,
  };
}

const OF_COSTS: readonly OutlookMeasure[] = ['cost', 'byFirm', 'byInsurer', 'left'];

function mayEstimate(measure: OutlookMeasure, past: Past): boolean {
  if (lacking(past).length === 0) return true;
  if (past.basis.jobsOfYear === 0 || lacking(past)[0]!.startsWith('Nothing')) return false;
  return !OF_COSTS.includes(measure) && (measure !== 'callbacks' || past.basis.callbacks !== null);
}

/** Hours of pairs that visits of each quarter take, beside the hours of duty by the work patterns of today. */
function quartersOf({ weeks, from, basis, dutyMinutesOfWeek }: Past, { jobsPercent, stepMinutes }: Scenario) {
  const start = DateTime.fromISO(from, { zone: 'utc' });
  const quarters = new Map<string, { weeks: number; jobs: number; minutes: number }>();
  for (let at = 0; at < 104; at++) {
    const monday = start.plus({ weeks: at });
    const name = `Q${monday.quarter} ${monday.year}`;
    const before = start.plus({ weeks: (at % 52) - 52 }).toISODate()!;
    const week = weeks.find((one) => one.week === before);
    const sum = quarters.get(name) ?? { weeks: 0, jobs: 0, minutes: 0 };
    quarters.set(name, {
      weeks: sum.weeks + 1,
      jobs: sum.jobs + (week?.jobs ?? 0),
      minutes: sum.minutes + (week?.plannedMinutes ?? 0),
    });
  }
  return [...quarters].map(([name, { weeks: count, jobs, minutes }]) => ({
    name,
    weeks: count,
    jobs,
    hoursNow: minutes / 60,
    hoursChanged: ((minutes + jobs * stepMinutes * (basis.step?.timesPerJob ?? 0)) / 60) * (1 + jobsPercent / 100),
    hoursOfDuty: (count * dutyMinutesOfWeek) / 2 / 60,
  }));
}
