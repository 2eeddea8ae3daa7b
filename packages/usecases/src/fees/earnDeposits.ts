// Once the visit has begun, what was held as a deposit pays what is owed.
import { DateTime } from 'luxon';
import { depositEarnedLines } from '@backsight/domain/fees/ledger';
import { accept } from '@backsight/domain/shared/outcome';
import type { Database } from '@backsight/store/database';
import { depositsToEarn, heldFor, lockInvoicesOfJob } from '@backsight/store/fees';
import { findJobForInvoice } from '@backsight/store/fees/job';
import type { Act, Runner, Work } from '../run.ts';
import { postEntry } from './steps/post.ts';

type Held = { jobId: string; partyId: string };

export const earnDeposit: Act<Held, { cents: number }> = { operation: 'fees.earn_deposit', run: earn };

async function earn(work: Work, { jobId, partyId }: Held) {
  await lockInvoicesOfJob(work.tx, jobId);
  const cents = await heldFor(work.tx, jobId, partyId);
  if (cents > 0) {
    const job = (await findJobForInvoice(work.tx, jobId))!;
    const happenedOn = DateTime.fromJSDate(work.now, { zone: job.zone }).toISODate()!;
    await postEntry(work, {
      kind: 'deposit_earned',
      happenedOn,
      memo: `Deposit for job ${job.number} earned`,
      lines: depositEarnedLines(cents, { partyId, jobId }),
    });
  }
  await work.did('job', jobId, { depositEarned: cents });
  return accept({ cents });
}

/** Earns every deposit whose visit has begun; answers how many. */
export async function earnDeposits(parts: { database: Database; runner: Runner }): Promise<number> {
  const waiting = await depositsToEarn(parts.database.read);
  for (const { jobId, partyId } of waiting) await parts.runner.run(earnDeposit, { jobId, partyId }, { actor: { kind: 'service' } });
  return waiting.length;
}
