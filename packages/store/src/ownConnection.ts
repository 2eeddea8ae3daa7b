// Lets hand-written SQL of a transaction go straight to its connection: on the way through Prisma each statement is compiled, interpreted and
// its rows built a second time, which costs several times what the statement does. Prisma begins and ends the transaction as ever.
import { AsyncLocalStorage } from 'node:async_hooks';
import { PrismaPg } from '@prisma/adapter-pg';
import type pg from 'pg';

/** The connection of one transaction; null before it began and from the moment in which its end is on the way. `last`: its last statement. */
export type OwnConnection = { client: pg.ClientBase | null; last: Promise<unknown> };

export const ownConnection = (): OwnConnection => ({ client: null, last: Promise.resolve() });

/** Runs a statement behind those that were asked for before it, because a connection does one at a time. Null where the transaction is not open. */
export function inTurn(own: OwnConnection, query: pg.QueryConfig): Promise<pg.QueryResult | null> {
  const answer = own.last.then(() => own.client?.query(query) ?? null);
  own.last = answer.catch(() => {}); // whoever asked hears of it
  return answer;
}

const beginning = new AsyncLocalStorage<OwnConnection>();

/** Runs `begin`, which begins one transaction, and lets `own` know its connection as long as it is open. */
export const knowing = <T>(own: OwnConnection, begin: () => Promise<T>): Promise<T> => beginning.run(own, begin);

const END = /^(?:COMMIT|ROLLBACK)$/i;

/** Prisma's adapter that tells whoever begins a transaction its connection. */
export class TellingPg extends PrismaPg {
  override async connect() {
    const adapter = await super.connect();
    const start = adapter.startTransaction.bind(adapter);
    adapter.startTransaction = async (level) => {
      const own = beginning.getStore();
      const transaction = await start(level);
      if (!own) return transaction;
      const run = transaction.executeRaw.bind(transaction);
      // Nothing may reach the connection behind the end of its transaction: it would be kept at once, or be part of somebody else's.
      transaction.executeRaw = (query) => {
        if (END.test(query.sql)) own.client = null;
        return run(query);
      };
      own.client = (transaction as unknown as { client: pg.ClientBase }).client;
      return transaction;
    };
    return adapter;
  }
}
