// How long things take: the rules that plan an inspection, and the other kinds of visits; read by all, changed by the owner.
import { minutesRows, setMinutes } from '@backsight/domain/jobs/serviceMinutes';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { addRules, newestRules } from '@backsight/store/jobs/bookingRules';
import { listServices } from '@backsight/store/jobs/services';
import { listVisitKinds, setVisitKind } from '@backsight/store/jobs/visitKinds';
import { FIRM_THING } from '../firm/steps/localDay.ts';
import type { Act, Work } from '../run.ts';

/** What the firm's own people do besides the inspection itself. */
const ownServices = async (reader: Reader) =>
  (await listServices(reader)).filter((one) => !one.base && !one.providerOnly && one.endedOn === null);

/** `version` is that of the booking rules. Refusal: not-set-up. */
export async function readMinutes(reader: Reader) {
  const newest = await newestRules(reader);
  if (!newest) return refuse('not-set-up', { what: 'booking rules' });
  const names = Object.fromEntries((await listServices(reader)).map(({ key, name }) => [key, name]));
  const rules = minutesRows(newest.body.durations, await ownServices(reader), names);
  return accept({ version: newest.number, rules, kinds: await listVisitKinds(reader) });
}

export type MinutesInput = { version: number; minutes: Record<string, number> };

/** Counts for jobs that are booked from now on; others keep the rules under which they were booked. Refusals: not-set-up, changed-meanwhile, nothing-changed. */
export const changeMinutes: Act<MinutesInput, { version: number }> = { operation: 'jobs.change-minutes', run: change };

async function change(work: Work, { version, minutes }: MinutesInput): Promise<Outcome<{ version: number }>> {
  const newest = await newestRules(work.tx);
  if (!newest) return refuse('not-set-up', { what: 'booking rules' });
  if (newest.number !== version) return refuse('changed-meanwhile');
  const durations = setMinutes(newest.body.durations, await ownServices(work.tx), minutes);
  if (JSON.stringify(durations) === JSON.stringify(newest.body.durations)) return refuse('nothing-changed');
  const id = work.newId();
  await addRules(work.tx, { id, number: version + 1, body: { ...newest.body, durations }, at: work.now });
  await work.did('booking-rules', id, { number: version + 1, ...minutes });
  return accept({ version: version + 1 });
}

export type VisitKindInput = { key: string; version: number; minutes: number; reportMinutes: number };

/** Visits that are booked keep their length. Refusals: not-found, changed-meanwhile. */
export const changeVisitKind: Act<VisitKindInput, { key: string; version: number }> = {
  operation: 'jobs.change-visit-kind',
  run: async (work, { key, version, ...minutes }) => {
    if (!(await listVisitKinds(work.tx)).some((one) => one.key === key)) return refuse('not-found', { thing: 'kind of visit' });
    if (!(await setVisitKind(work.tx, key, version, minutes))) return refuse('changed-meanwhile');
    await work.did('firm', FIRM_THING, { visitKind: key, ...minutes });
    return accept({ key, version: version + 1 });
  },
};
