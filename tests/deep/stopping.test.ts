// A service that is told to stop says so to whoever asks for its health, answers what it was asked, and goes; a second signal does not wait.
import fs from 'node:fs';
import path from 'node:path';
import pg from 'pg';
import { afterAll, afterEach, describe, expect, it } from 'vitest';
import { runningServer } from '@backsight/store/embedded/running';
import { dataFolder, freePort, startProgram, type Program } from '../support/program.ts';

const folder = dataFolder();
let program: Program;
let port: number;
let lock: pg.Client | undefined;

async function start(): Promise<void> {
  port = await freePort();
  program = startProgram({ DATA_DIR: folder, PORT: String(port), DEMO: '0', DRAIN_SECONDS: '5', SECOND_FACTOR: 'nobody' });
  await program.ready;
  lock = new pg.Client(runningServer(folder, 'postgres')!);
  lock.on('error', () => {});
  await lock.connect();
}

afterEach(async () => {
  await lock?.end().catch(() => {});
  if (program.process.exitCode === null && program.process.signalCode === null) await program.stop();
});
afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

const health = () => fetch(`http://127.0.0.1:${port}/api/health`);

/** Wrong passwords are noted, which waits for the table that is held. */
function asksSlowly(): Promise<Response> {
  return fetch(`http://127.0.0.1:${port}/api/session`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ email: 'nobody@test.example', password: 'not this one at all' }),
  });
}
const waits = async (): Promise<number> =>
  (await lock!.query<{ n: number }>(`SELECT count(*)::int AS n FROM pg_locks WHERE NOT granted`)).rows[0]!.n;
async function holdTable(): Promise<Promise<Response>> {
  await lock!.query('BEGIN; LOCK TABLE sign_in_attempt IN SHARE MODE');
  const answer = asksSlowly();
  answer.catch(() => {});
  await expect.poll(waits).toBe(1);
  return answer;
}

describe('a service that is told to stop', { timeout: 240_000 }, () => {
  it('turns its health to 503 first, and answers what it was asked before it goes', async () => {
    await start();
    expect((await health()).status).toBe(200);
    const answer = holdTable();
    await expect.poll(waits).toBe(1);
    program.process.kill('SIGTERM');
    await expect.poll(async () => (await health()).status).toBe(503);
    expect(await (await health()).json()).toMatchObject({ status: 'stopping', database: 'reachable' });
    await lock!.query('COMMIT');
    expect((await answer).status).toBe(401);
    expect(await program.ended).toBe(0);
    expect(program.said()).toMatch(/stopped\s*$/);
    await expect(health()).rejects.toThrow();
  });
  it('goes at once at a second signal', async () => {
    await start();
    // Taken at once: it breaks off while the test waits for something else.
    const answer = holdTable().then(
      () => 'answered',
      () => 'broken off',
    );
    await expect.poll(waits).toBe(1);
    program.process.kill('SIGTERM');
    await expect.poll(async () => (await health()).status).toBe(503);
    const before = performance.now();
    program.process.kill('SIGTERM');
    expect(await program.ended).toBe(1);
    expect(performance.now() - before).toBeLessThan(5_000);
    expect(await answer).toBe('broken off');
    fs.accessSync(path.join(folder, 'pg18'));
  });
});
