// The planner: one plan after the other in a thread of its own, whatever becomes of that thread.
import { randomUUID } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { askDayPlan } from '@backsight/usecases/schedule/askPlan';
import { losePlans } from '@backsight/usecases/schedule/endPlan';
import { as, CAST } from '../support/cast.ts';
import { testApi } from '../support/http.ts';
import { hourAt, planEnded } from '../support/plans.ts';
import { plannerOf } from '../support/services.ts';
import { withStarter } from '../support/starter.ts';
import { bookedVisit } from '../support/visits.ts';

const api = testApi();
withStarter(api);
const DAY = '2026-05-14';
const ended = (id: string) => planEnded(api, `/api/plans/${id}`);

describe('the planner', () => {
  beforeAll(async () => {
    const { anna, ben } = CAST;
    await bookedVisit(api, { startsAt: hourAt(DAY, 9), endsAt: hourAt(DAY, 12), first: anna.id, second: ben.id });
  });
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'backsight-planner-'));
  afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));
  /** A planner whose thread runs this program instead. */
  const withThread = (program: string, settings: Partial<Parameters<typeof plannerOf>[1]> = {}) => {
    const file = path.join(folder, `${randomUUID()}.mjs`);
    fs.writeFileSync(file, `import { parentPort } from 'node:worker_threads';\n${program}`);
    return plannerOf(api, { workerFile: file, ...settings });
  };
  const asked = async (): Promise<string> => {
    const id = randomUUID();
    await api.runner.run(askDayPlan, { id, from: DAY, to: DAY, weights: {} }, { actor: as('office') });
    return id;
  };

  it('ends a plan whose thread crashes with a clear word, and makes the next', async () => {
    const planner = withThread(`parentPort.on('message', () => process.exit(9));`);
    const [first, second] = [await asked(), await asked()];
    planner.make(first);
    planner.make(second);
    expect(planner.progress(second)).toMatchObject({ waiting: 1 });
    expect(await ended(first)).toMatchObject({ state: 'failed', note: expect.stringContaining('Nothing was changed') });
    expect(await ended(second)).toMatchObject({ state: 'failed' });
    await planner.close();
  });
  it('tells how far it is, and lets the best so far be the answer when it is stopped', async () => {
    const planner = withThread(`parentPort.on('message', ({ stop }) => {
      parentPort.postMessage({ kind: 'progress', run: 0, phase: 'bound', cost: 120.5, bound: 90 });
      const flag = new Int32Array(stop);
      const watch = setInterval(() => { if (Atomics.load(flag, 0)) { clearInterval(watch); parentPort.postMessage({ kind: 'failed', message: 'stopped as told' }); } }, 10);
    });`);
    const id = await asked();
    planner.make(id);
    await expect
      .poll(() => planner.progress(id))
      .toMatchObject({ of: 1, day: DAY, phase: 'bound', cost: 120.5, bound: 90, stopping: false });
    expect(planner.stop(id)).toBe(true);
    expect(planner.progress(id)).toMatchObject({ stopping: true });
    expect((await ended(id)).note).toContain('stopped as told');
    expect(planner.stop(id)).toBe(false);
    await planner.close();
  });
  it('ends a thread that does not hear, at the limit of time', async () => {
    const planner = withThread(`parentPort.on('message', () => { for (;;); });`, { limitMs: 100, patienceMs: 100 });
    const id = await asked();
    planner.make(id);
    expect(await ended(id)).toMatchObject({ state: 'stopped', note: expect.stringContaining('before there was any plan') });
    await planner.close();
  });
  it('stops a plan that waits, and says after a restart what was lost', async () => {
    const planner = withThread(`parentPort.on('message', () => {});`);
    const [first, second, third] = [await asked(), await asked(), await asked()];
    planner.make(first);
    planner.make(second);
    planner.make(third);
    expect(planner.stop(third)).toBe(true);
    expect(await ended(third)).toMatchObject({ state: 'stopped' });
    await planner.close();
    await api.runner.run(losePlans, { until: api.clock.now }, { actor: { kind: 'service' } });
    for (const id of [first, second])
      expect(await ended(id)).toMatchObject({ state: 'lost', note: expect.stringContaining('started again') });
  });
});
