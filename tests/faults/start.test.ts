// Starting, starting twice, dying hard, and never making an empty firm where one was.
import fs from 'node:fs';
import path from 'node:path';
import net from 'node:net';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, afterEach, describe, expect, it } from 'vitest';
import { dataFolder, freePort, startProgram, type Program } from '../support/program.ts';

const folder = dataFolder();
const running: Program[] = [];

async function start(env: Record<string, string> = {}): Promise<Program & { port: number }> {
  const port = await freePort();
  const program = startProgram({ DATA_DIR: folder, PORT: String(port), DEMO: '0', ...env });
  running.push(program);
  return { ...program, port };
}

const health = async (port: number) => (await fetch(`http://127.0.0.1:${port}/api/health`)).json() as Promise<Record<string, unknown>>;

/** The database server of the data folder, by its own note. */
const serverPid = (): number => Number(fs.readFileSync(path.join(folder, 'pg18', 'postmaster.pid'), 'utf8').split('\n')[0]);

const commandOf = (pid: number | string): string => {
  try {
    return fs.readFileSync(`/proc/${pid}/cmdline`, 'utf8');
  } catch {
    return '';
  }
};
const alive = (pid: string): boolean => commandOf(pid).includes('demo-maker');
/** Processes of that one that make a demo firm. */
const makersOf = (pid: number): string[] => fs.readFileSync(`/proc/${pid}/task/${pid}/children`, 'utf8').split(' ').filter(alive);

afterEach(async () => {
  for (const program of running.splice(0))
    if (program.process.exitCode === null && program.process.signalCode === null) await program.stop();
});
afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

describe('the program', { timeout: 120_000 }, () => {
  it('starts on an empty folder, says how it is, and leaves a second start standing outside', async () => {
    const first = await start();
    await first.ready;
    expect(await health(first.port)).toMatchObject({ status: 'well', database: 'reachable', guards: 'role' });
    const second = await start();
    expect(await second.ended).toBe(1);
    expect(second.said()).toMatch(/already running here \(process \d+\)/);
    expect((await health(first.port)).status).toBe('well');
  });

  it('is backed up while it serves, and lets nothing take its place meanwhile', async () => {
    const first = await start();
    await first.ready;
    const file = path.join(folder, 'kept', 'one.tar.gz');
    const command = async (...words: string[]) => {
      const program = startProgram({ DATA_DIR: folder, DEMO: '0' }, words);
      return [await program.ended, program.said()] as const;
    };
    expect(await command('backup', file)).toEqual([0, expect.stringMatching(/read back, and whole[^]*Keep it on another machine/)]);
    expect(await command('restore', file)).toEqual([1, expect.stringMatching(/already running here/)]);
    expect((await health(first.port)).status).toBe('well');
    await first.stop();
    running.splice(0);
    expect(await command('restore', file)).toEqual([0, expect.stringMatching(/holds: checks, foreign keys[^]*Restored\./)]);
    expect(await command('verify')).toEqual([0, expect.stringMatching(/Everything holds\.$/m)]);
    expect(await command('resotre')).toEqual([1, expect.stringMatching(/There is no command "resotre"/)]);
  });

  it('recovers by itself when everything was killed hard', async () => {
    const first = await start();
    await first.ready;
    const database = serverPid();
    process.kill(database, 'SIGKILL');
    first.process.kill('SIGKILL');
    await first.ended;
    const again = await start();
    await again.ready;
    expect((await health(again.port)).status).toBe('well');
  });

  it('takes the place of a database server that lost its service', async () => {
    const first = await start();
    await first.ready;
    first.process.kill('SIGKILL');
    await first.ended;
    const again = await start();
    await again.ready;
    expect((await health(again.port)).status).toBe('well');
  });

  it.runIf(process.platform === 'linux')('ends the making of the demo firm with itself', async () => {
    const other = dataFolder();
    const program = await start({ DATA_DIR: other, DEMO: '1' });
    let making: string[] = [];
    while (making.length === 0) {
      await sleep(20);
      making = makersOf(program.process.pid!);
    }
    await program.stop();
    expect(making.filter(alive)).toEqual([]);
    fs.rmSync(other, { recursive: true, force: true, maxRetries: 50, retryDelay: 200 }); // what makes the database server ends a little later
  });

  it('says when the port is taken', async () => {
    const server = net.createServer().listen(0, '127.0.0.1');
    await new Promise((resolve) => server.once('listening', resolve));
    const port = String((server.address() as net.AddressInfo).port);
    const program = await start({ PORT: port });
    expect(await program.ended).toBe(1);
    expect(program.said()).toContain(`Port ${port} is already in use.`);
    server.close();
  });

  it('stops with one clear line at a wrong setting', async () => {
    const program = await start({ LOG_LEVEL: 'loud' });
    expect(await program.ended).toBe(1);
    expect(program.said().trim().split('\n').at(-1)).toMatch(/^LOG_LEVEL: "loud" is not right/);
  });

  it('never makes an empty firm where one was', async () => {
    const moved = `${folder}-moved`;
    fs.renameSync(path.join(folder, 'pg18'), moved);
    const program = await start();
    expect(await program.ended).toBe(1);
    expect(program.said()).toContain("The firm's database was kept in");
    expect(fs.existsSync(path.join(folder, 'pg18'))).toBe(false);
    fs.renameSync(moved, path.join(folder, 'pg18'));
    const again = await start();
    await again.ready;
  });
});
