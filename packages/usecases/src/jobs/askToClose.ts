// Asks whoever is at the house to close it before a radon monitor is placed; once for each start of the visit.
import { DateTime } from 'luxon';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findJobForAgreement } from '@backsight/store/agreements/job';
import type { Database } from '@backsight/store/database';
import { housesToClose } from '@backsight/store/jobs/closedHouse';
import { findOpenNeeds, findJob, updateNeed } from '@backsight/store/jobs/jobs';
import { sendLetter } from '../mail/steps/letter.ts';
import type { Act, Runner, Work } from '../run.ts';
import { deskRulesOf } from './steps/deskRules.ts';

/** Hours before the start at which the mail goes out: a day before the house is closed, where it is closed for 12. */
const HOURS_BEFORE = 36;
const HOUR = 3_600_000;
const AT_THE_HOUSE = ['client', 'occupant', 'seller'];

const askToClose: Act<{ jobId: string }, { told: number }> = { operation: 'jobs.ask-to-close-the-house', run: ask };

async function ask(work: Work, { jobId }: { jobId: string }): Promise<Outcome<{ told: number }>> {
  const [job, facts] = [await findJob(work.tx, jobId), await findJobForAgreement(work.tx, jobId)];
  if (!job || !facts?.visit) return refuse('not-found', { thing: 'visit' });
  const { closedHouseHours: hours, shortestHours } = (await deskRulesOf(work.tx, job)).radon;
  const { visit, zone, number, address, firm, firmPhone } = facts;
  const start = new Date(visit.startsAt);
  const from = new Date(start.getTime() - hours * HOUR);
  const say = (at: Date): string => DateTime.fromJSDate(at, { zone }).setLocale('en-US').toFormat("cccc, LLLL d, 'at' h:mm a");
  const to = new Map(
    facts.parties.flatMap((p) => (AT_THE_HOUSE.includes(p.role) && p.email ? [[p.partyId, { ...p, email: p.email }]] : [])),
  );
  for (const { partyId, name, email } of to.values())
    await sendLetter(work, {
      kind: 'closed_house',
      messageKey: `closed-house:${visit.id}:${start.getTime() / 1000}:${partyId}`,
      to: { name, email },
      values: {
        ...{ address, firm, firm_phone: firmPhone, job: String(number), close_from: say(from), placed_at: say(start) },
        ...{ hours: String(hours), shortest_hours: String(shortestHours) },
      },
      about: { kind: 'job', id: jobId },
    });
  if ((await findOpenNeeds(work.tx, jobId)).includes('closed_house'))
    await updateNeed(work.tx, jobId, 'closed_house', { state: 'asked', details: {}, at: work.now, by: null });
  await work.did('job', jobId, { askedToClose: to.size });
  return accept({ told: to.size });
}

/** Asks for every visit that is near; answers for how many. */
export async function askToCloseHouses(parts: { database: Database; runner: Runner; clock: () => Date }): Promise<number> {
  const now = parts.clock();
  const waiting = await housesToClose(parts.database.read, { now, before: new Date(now.getTime() + HOURS_BEFORE * HOUR) });
  for (const { jobId } of waiting) await parts.runner.run(askToClose, { jobId }, { actor: { kind: 'service' } });
  return waiting.length;
}
