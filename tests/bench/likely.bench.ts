// How often the traced step is among those offered, beside simple ways to guess it, and how long a look takes on the demo firm.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { openDatabase, type Database, type Reader } from '@backsight/store/database';
import { startEmbedded } from '@backsight/store/embedded/server';
import { migrate } from '@backsight/store/migrate';
import { readLikely } from '@backsight/usecases/callbacks/readLikely';
import { seedDemo } from '../../prisma/seed/demo/demo.ts';
import { quantile, type Bench, type Row } from './bench.ts';
import { HELD_OUT, TUNED, type Labelled } from './complaints.ts';
import { bookSteps, placeOf, share, type BookStep } from './labelled.ts';
import { wordsInCommon } from './wordsInCommon.ts';

const ROOT = path.resolve(import.meta.dirname, '../..');
/** Midday of a Wednesday in Wisconsin. */
const NOW = new Date('2026-05-13T16:30:00Z');
const LOOKS = 40;

const rates = (way: string, set: string, places: readonly number[]): Row => ({
  ...{ way, set, cases: places.length, top1: share(places, 1), top3: share(places, 3), top5: share(places, 5), p50: null, p95: null },
});

/** The steps of the system that was named, in the order of the book. */
const bySystem = (steps: readonly BookStep[], { system, steps: right }: Labelled): number =>
  steps.filter((step) => step.system === system).findIndex(({ stepKey }) => right.includes(stepKey));
const byWordsInCommon = (steps: readonly BookStep[], { system, place, words, steps: right }: Labelled): number =>
  wordsInCommon({ system, words: `${place} ${words}` }, steps).findIndex(({ stepKey }) => right.includes(stepKey));

async function measureLabelled(reader: Reader, say: (row: Row) => void): Promise<void> {
  const steps = await bookSteps(reader, NOW);
  for (const [set, complaints] of [
    ['tuned on', TUNED],
    ['held out', HELD_OUT],
  ] as const) {
    const places: number[] = [];
    const times: number[] = [];
    for (const complaint of complaints) {
      const began = performance.now();
      places.push(await placeOf(reader, steps, complaint));
      times.push(performance.now() - began);
    }
    say({ ...rates('likely steps', set, places), p50: quantile(times, 0.5), p95: quantile(times, 0.95) });
    const beside = (way: (steps: readonly BookStep[], one: Labelled) => number) => complaints.map((one) => way(steps, one));
    say(rates('words in common (before)', set, beside(byWordsInCommon)));
    say(rates('system only, book order', set, beside(bySystem)));
  }
}

/** The callbacks of the demo that were traced to a step: each looked at by an owner, its own conclusion left out. */
async function measureDemo(reader: Reader, say: (row: Row) => void): Promise<void> {
  const cases = await reader.rows<{ id: string; stepKey: string }>(
    `SELECT DISTINCT ON (c.id) c.id::text AS id, x.step_key AS "stepKey" FROM callback c JOIN conclusion x ON x.callback_id = c.id WHERE x.step_key IS NOT NULL ORDER BY c.id, x.happened_at DESC`,
  );
  const look = (id: string) => readLikely(reader, { id, words: null, roles: ['owner'], now: NOW });
  const places: number[] = [];
  for (const { id, stepKey } of cases) places.push((await look(id))!.likely.findIndex((one) => one.stepKey === stepKey));
  const times: number[] = [];
  for (let n = 0; n < LOOKS; n += 1) {
    const began = performance.now();
    await look(cases[n % cases.length]!.id);
    times.push(performance.now() - began);
  }
  say({ ...rates('likely steps, whole look', 'demo firm', places), p50: quantile(times, 0.5), p95: quantile(times, 0.95) });
}

async function withDemo(work: (database: Database) => Promise<void>): Promise<void> {
  const dataDir = fs.mkdtempSync(path.join(os.tmpdir(), 'backsight-bench-'));
  fs.chmodSync(dataDir, 0o755);
  const server = await startEmbedded({ dataDir, from: path.join(ROOT, 'packages/store/package.json'), volatile: true });
  try {
    const url = server.url('postgres');
    await migrate(url, path.join(ROOT, 'prisma/migrations'));
    await seedDemo(url, { now: NOW, publicUrl: 'http://127.0.0.1' });
    const database = await openDatabase(url);
    await work(database).finally(() => database.close());
  } finally {
    await server.stop();
    fs.rmSync(dataDir, { recursive: true, force: true });
  }
}

const bench: Bench = {
  about: 'share of complaints whose traced step is offered first, among three, among five; milliseconds of a look, p50 and p95',
  run: (say) =>
    withDemo(async ({ read }) => {
      await measureLabelled(read, say);
      await measureDemo(read, say);
    }),
};
export default bench;
