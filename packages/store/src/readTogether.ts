// Lets the reads that are asked for in one go, as by `Promise.all`, leave together over one connection of the pool: each by itself would take
// and give back one, and wake both ends, which is most of what a short statement costs. Each is still a transaction of its own and fails alone.
import type pg from 'pg';
import { inOneGo, type Statement } from './oneGo.ts';

type Read = Statement<pg.QueryConfig & { name: string }>;

/** A statement that took so many milliseconds the last time has a connection of its own, so that no short one waits behind it. */
const LONG_MS = 20;

/** Hears how many milliseconds a statement took by itself. */
export type Took = (sql: string, ms: number) => void;

/** Reads over a pool whose connections send without waiting (`pipeline`). */
export function readsOver(pool: pg.Pool, took: Took): (query: Read['query']) => Promise<pg.QueryResult> {
  const long = new Set<string>();
  const heard: Heard = ({ name, text }, ms) => {
    if (ms >= LONG_MS) long.add(name);
    else long.delete(name);
    took(text, ms);
  };
  let asked: Read[] = [];
  const leave = (): void => {
    const [together, alone]: [Read[], Read[]] = [[], []];
    for (const read of asked) (long.has(read.query.name) ? alone : together).push(read);
    asked = [];
    if (together.length > 0) void send(pool, together, heard);
    for (const read of alone) void send(pool, [read], heard);
  };
  return (query) =>
    new Promise((answered, failed) => {
      asked.push({ query, answered, failed });
      if (asked.length === 1) process.nextTick(leave);
    });
}

type Heard = (query: Read['query'], ms: number) => void;

async function send(pool: pg.Pool, reads: readonly Read[], heard: Heard): Promise<void> {
  const client = await pool.connect().catch((why: unknown) => {
    for (const { failed } of reads) failed(why);
    return null;
  });
  if (!client) return;
  const lost = (): void => {}; // those that are under way hear it by themselves
  client.on('error', lost);
  let broken: Error | undefined;
  const noted = reads.map(({ failed, ...read }) => ({
    ...read,
    failed: (why: unknown) => {
      broken ??= why as Error;
      failed(why);
    },
  }));
  await inOneGo(client, noted, heard);
  client.off('error', lost);
  client.release(broken); // as the pool does itself: one that failed is not used again
}
