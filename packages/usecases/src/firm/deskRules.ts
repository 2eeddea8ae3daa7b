// What visits that do not go as booked cost, how long tests take, and what the season puts off: read and changed by the owner.
import { NO_RULES, type DeskRules } from '@backsight/domain/jobs/deskRules';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { addRules, newestRules, setWaiting } from '@backsight/store/jobs/bookingRules';
import type { Act, Work } from '../run.ts';

/** The newest version; a firm that has set none charges nothing. */
export async function readDeskRules(reader: Reader) {
  const newest = await newestRules(reader);
  if (!newest) return refuse('not-set-up', { what: 'booking rules' });
  const { laterLooks, ...rules } = newest.body.desk ?? NO_RULES;
  return accept({ version: newest.number, rules: { ...rules, laterLooks: [...laterLooks] } });
}

/** Counts for jobs that are booked from now on; others keep the rules under which they were booked. */
export const changeDeskRules: Act<{ version: number; rules: DeskRules }, { version: number }> = {
  operation: 'firm.desk-rules',
  run: change,
};

async function change(work: Work, { version, rules }: { version: number; rules: DeskRules }): Promise<Outcome<{ version: number }>> {
  const newest = await newestRules(work.tx);
  if (!newest) return refuse('not-set-up', { what: 'booking rules' });
  if (newest.number !== version) return refuse('changed-meanwhile');
  const id = work.newId();
  await addRules(work.tx, { id, number: version + 1, body: { ...newest.body, desk: rules }, at: work.now });
  await setWaiting(work.tx, rules.radon.shortestHours);
  await work.did('booking-rules', id, { number: version + 1, ...rules.endings, ...rules.late });
  return accept({ version: version + 1 });
}
