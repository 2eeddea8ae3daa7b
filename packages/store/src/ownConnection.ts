// Lets the statements of a transaction go straight to its connection, as few times over the line as their order allows: on the way through
// Prisma each is compiled, interpreted and its rows built a second time, and one at a time each costs a way there and back, which is most of
// what a short statement costs. Prisma begins and ends the transaction as ever.
import { AsyncLocalStorage } from 'node:async_hooks';
import { PrismaPg } from '@prisma/adapter-pg';
import type pg from 'pg';
import { inOneGo } from './oneGo.ts';

type Statement = { query: pg.QueryConfig; answered: (answer: pg.QueryResult | null) => void; failed: (error: unknown) => void };

/** The connection of one transaction; null before it began and from the moment in which its end is on the way. */
export type OwnConnection = {
  client: pg.ClientBase | null;
  /** What was asked for and has not gone out yet, in its order. */
  held: Statement[];
  /** Why a statement failed that nobody waited for: whoever asks next hears it. */
  broken: { why: unknown } | null;
  /** Hears how many milliseconds each statement took by itself, not what it waited for those before it. */
  took: (sql: string, ms: number) => void;
};

export const ownConnection = (took: OwnConnection['took'] = () => {}): OwnConnection => ({ client: null, held: [], broken: null, took });

/** So many statements that nobody waits for are kept back at most. */
const MOST_HELD = 50;

/**
 * Runs a statement whose answer is waited for, behind those that were asked for before it; what is asked for in one go, as by `Promise.all`,
 * goes out together. Null where the transaction is not open.
 */
export function ask(own: OwnConnection, query: pg.QueryConfig): Promise<pg.QueryResult | null> {
  return new Promise((answered, failed) => {
    own.held.push({ query, answered, failed });
    process.nextTick(send, own);
  });
}

/**
 * Runs a statement whose answer nobody needs: it goes out with the next one that is waited for, and fails that one if it fails itself, or
 * where it touched no row and `orElse` says what then went wrong. False where the transaction is not open.
 */
export async function tell(own: OwnConnection, query: pg.QueryConfig, orElse?: () => Error): Promise<boolean> {
  if (!own.client) return false;
  const failed = (why: unknown): void => void (own.broken ??= { why });
  const answered: Statement['answered'] = (answer) => (orElse && answer?.rowCount === 0 ? failed(orElse()) : undefined);
  own.held.push({ query, answered, failed });
  if (own.held.length >= MOST_HELD) await settled(own);
  return true;
}

/** Sends what is still held back and waits for it. @throws whatever a statement failed with that nobody waited for. */
export async function settled(own: OwnConnection): Promise<void> {
  await send(own);
  if (own.broken) throw own.broken.why;
}

async function send(own: OwnConnection): Promise<void> {
  const { client, held } = own;
  own.held = [];
  if (!client) return held.forEach(({ answered }) => answered(null));
  const heard = held.map(({ query, answered, failed }) => ({
    query,
    answered: (answer: pg.QueryResult) => (own.broken ? failed(own.broken.why) : answered(answer)),
    failed: (why: unknown) => failed(own.broken ? own.broken.why : why),
  }));
  await inOneGo(client, heard, ({ text }, ms) => own.took(text, ms));
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
