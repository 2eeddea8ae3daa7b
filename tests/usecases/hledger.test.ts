// The plain-text journal is read by hledger (Debian's package), and its balances are those of our trial balance.
import { execFileSync } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { expect, it } from 'vitest';
import { journalName } from '@backsight/documents/journalText';
import { writeCreditNote } from '@backsight/usecases/fees/changeInvoice';
import { addAccount, enterByHand } from '@backsight/usecases/fees/accounts';
import { issueInvoiceOfJob } from '@backsight/usecases/fees/issue';
import { exportJournal, readTrialBalance } from '@backsight/usecases/fees/readLedger';
import { recordPayment } from '@backsight/usecases/fees/recordPayment';
import { as, withCast } from '../support/cast.ts';
import { testService } from '../support/database.ts';
import { paidJob } from '../support/paidJob.ts';
import { withStarter } from '../support/starter.ts';

const service = testService();
withCast(service);
withStarter(service);

function hledgerVersion(): string | null {
  try {
    return execFileSync('hledger', ['--version'], { encoding: 'utf8' }).trim();
  } catch {
    return null;
  }
}
const version = hledgerVersion();

async function someMoney(): Promise<void> {
  const by = { actor: as('owner') };
  const { jobId } = await paidJob(service, { terms: 'deposit' });
  const issued = await service.runner.run(issueInvoiceOfJob, { jobId }, by);
  if (!issued.ok) throw new Error(issued.code);
  const { invoiceId } = issued.value;
  const payment = { id: randomUUID(), invoiceId, method: 'cash' as const, reference: '', cents: 12_345, receivedOn: '2026-05-11' };
  await service.runner.run(recordPayment, payment, by);
  await service.runner.run(writeCreditNote, { id: randomUUID(), invoiceId, cents: 501, reason: 'a courtesy' }, by);
  await service.runner.run(addAccount, { name: 'Software; tools | more', kind: 'expense' }, by);
  const lines = [
    { account: 'software-tools-more', cents: 4_900 },
    { account: 'bank', cents: -4_900 },
  ];
  const entered = await service.runner.run(
    enterByHand,
    { id: randomUUID(), happenedOn: '2026-05-10', memo: 'license; yearly | tools', lines },
    by,
  );
  expect(entered.ok).toBe(true);
}

/** Balances by account as hledger's CSV has them: "assets:bank","$74.45". */
function balancesOf(csv: string): Map<string, number> {
  const rows = csv
    .trim()
    .split('\n')
    .slice(1)
    .map((row) => /^"([^"]*)","([^"]*)"$/.exec(row)!);
  return new Map(rows.map(([, account, amount]) => [account!, Math.round(Number(amount!.replaceAll(/[$,]/g, '')) * 100)]));
}

it.skipIf(version === null)(`hledger agrees with the trial balance (${version ?? 'skipped: hledger is not installed here'})`, async () => {
  await someMoney();
  const journal = await exportJournal(service.database.read, {});
  const hledger = (...args: string[]) => execFileSync('hledger', ['-f', '-', ...args], { input: journal, encoding: 'utf8' });
  hledger('check');
  const theirs = balancesOf(hledger('balance', '--flat', '--no-total', '-O', 'csv'));
  const ours = (await readTrialBalance(service.database.read, service.clock.now)).rows.filter(({ debit, credit }) => debit !== credit);
  expect(ours.length).toBeGreaterThan(4);
  expect(theirs).toEqual(new Map(ours.map((row) => [journalName({ code: row.account, ...row }), row.debit - row.credit])));
});
