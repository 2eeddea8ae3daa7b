// Times closed for weather: entered, lifted, and planned around.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { wallTime } from '@backsight/domain/schedule/wallClock';
import { addDays } from '@backsight/scheduling/time';
import type { PlanWeights } from '@backsight/scheduling/plan/model';
import { listTowns } from '@backsight/store/jobs/catalog';
import { findClosure, insertClosure, liftClosure as lift, type ClosureRow } from '@backsight/store/schedule/closures';
import { localDay } from '../firm/steps/localDay.ts';
import type { Act, Work } from '../run.ts';
import { writePlan } from './steps/writePlan.ts';

export type ClosureInput = { id: string; startsAt: string; endsAt: string; outdoorOnly: boolean; towns: string[]; reason: string };

/** From now on no visit is booked into it; those that are stay until they are moved. */
export const closeForWeather: Act<ClosureInput, { id: string }> = { operation: 'schedule.close-for-weather', run: close };

async function close(work: Work, input: ClosureInput): Promise<Outcome<{ id: string }>> {
  if (work.actor.kind !== 'person') return refuse('not-allowed');
  const [startsAt, endsAt] = [new Date(input.startsAt), new Date(input.endsAt)];
  if (endsAt <= startsAt) return refuse('weather-closure-times', {}, 'endsAt');
  if (endsAt <= work.now) return refuse('closure-past', {}, 'endsAt');
  const known = (await listTowns(work.tx)).map(({ name }) => name);
  const unknown = input.towns.find((town) => !known.includes(town));
  if (unknown !== undefined) return refuse('town-not-known', { town: unknown }, 'towns');
  await insertClosure(work.tx, { ...input, startsAt, endsAt, recordedBy: work.actor.id, recordedAt: work.now });
  const { outdoorOnly, towns } = input;
  await work.did('weather-closure', input.id, { from: startsAt.toISOString(), until: endsAt.toISOString(), outdoorOnly, towns });
  return accept({ id: input.id });
}

/** The weather turned out otherwise: starts in it are offered again. What was moved stays moved. */
export const liftClosure: Act<{ id: string }, { id: string }> = {
  operation: 'schedule.lift-closure',
  run: async (work, { id }) => {
    if (!(await lift(work.tx, id, work.now))) return refuse('not-found', { thing: 'closed time' });
    await work.did('weather-closure', id, { lifted: true });
    return accept({ id });
  },
};

/** Days after the closed ones on which its visits may find a place. */
const DAYS_AFTER = 6;

export type WeatherPlanInput = { id: string; closureId: string; weights: Partial<PlanWeights> };

/** Three plans that move the visits of a closed time together: that day where it can be, else the days after. */
export const askWeatherPlan: Act<WeatherPlanInput, { id: string }> = { operation: 'schedule.ask-weather-plan', run: ask };

async function ask(work: Work, { id, closureId, weights }: WeatherPlanInput): Promise<Outcome<{ id: string }>> {
  const closure = await findClosure(work.tx, closureId);
  if (!closure) return refuse('not-found', { thing: 'closed time' });
  const { today, zone } = await localDay(work.tx, work.now);
  const first = wallTime(closure.startsAt, zone).day;
  const to = addDays(lastDayOf(closure, zone), DAYS_AFTER);
  return writePlan(work, { id, kind: 'weather', from: first < today ? today : first, to, ask: { closureId, weights } });
}

/** Last day that a closed time touches. */
function lastDayOf({ endsAt }: Pick<ClosureRow, 'endsAt'>, zone: string): string {
  const end = wallTime(endsAt, zone);
  return end.minute === 0 ? addDays(end.day, -1) : end.day;
}
