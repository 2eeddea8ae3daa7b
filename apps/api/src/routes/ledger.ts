// The books: balances, entries, accounts, closed months, and the ledger as files.
import type { FastifyInstance } from 'fastify';
import { ledgerRoutes as routes } from '@backsight/contract/fees/ledger';
import { addAccount, enterByHand, nameAccount } from '@backsight/usecases/fees/accounts';
import { closeBooks, readBooks, reopenBooks } from '@backsight/usecases/fees/closeBooks';
import { exportCsv, exportJournal, readAccounts, readEntries, readTrialBalance } from '@backsight/usecases/fees/readLedger';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

const named = (name: string): string => `attachment; filename="${name}"`;

export function ledgerApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.trialBalance, ({ read, query, now }) => readTrialBalance(read, now, query.until));
  mount(app, services, routes.entries, ({ read, query }) => readEntries(read, query));
  mount(app, services, routes.enter, ({ act, body }) => act(enterByHand, body));
  mount(app, services, routes.accounts, ({ read }) => readAccounts(read));
  mount(app, services, routes.addAccount, ({ act, body }) => act(addAccount, body));
  mount(app, services, routes.nameAccount, ({ act, params, body }) => act(nameAccount, { ...params, ...body }));
  mount(app, services, routes.books, ({ read }) => readBooks(read));
  mount(app, services, routes.close, ({ act, body }) => act(closeBooks, body));
  mount(app, services, routes.reopen, ({ act, body }) => act(reopenBooks, body));
  mount(app, services, routes.csv, async ({ read, query, reply }) => {
    const text = await exportCsv(read, query);
    reply.type('text/csv; charset=utf-8; header=present').header('content-disposition', named('ledger.csv'));
    return text;
  });
  mount(app, services, routes.journal, async ({ read, query, reply }) => {
    const text = await exportJournal(read, query);
    reply.type('text/plain; charset=utf-8').header('content-disposition', named('ledger.journal'));
    return text;
  });
}
