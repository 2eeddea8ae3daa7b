// Copies of the demo firm's database for a bench, dropped again after it; and the processor time that their server takes.
import fs from 'node:fs';
import pg from 'pg';
import { withYears } from '../years/databases.ts';

export type Copies = {
  /** Makes a copy of the demo firm, or of another copy, under this name, with fresh statistics, and answers its address. */
  copy: (name: string, of?: string) => Promise<string>;
  /** Processor milliseconds of the server with all its connections; null where the machine does not tell. */
  cpu: () => number | null;
  stop: () => Promise<void>;
};

/** Starts the benches' server, making the demo firm in it on the first run. */
export async function withCopies(): Promise<Copies> {
  const server = (await withYears([], true, console.log))!;
  const admin = await connected(server.url('postgres'));
  const made: string[] = [];
  const cpu = await processorOf(admin);
  return {
    copy: async (name, of = 'ground') => {
      await admin.query(`DROP DATABASE IF EXISTS ${name} WITH (FORCE)`);
      await admin.query(`CREATE DATABASE ${name} TEMPLATE ${of} STRATEGY file_copy`);
      made.push(name);
      const own = await connected(server.url(name));
      await own.query('VACUUM ANALYZE');
      await own.end();
      return server.url(name);
    },
    cpu,
    stop: async () => {
      for (const name of made) await admin.query(`DROP DATABASE IF EXISTS ${name} WITH (FORCE)`);
      await admin.end();
      await server.stop();
    },
  };
}

/** Tells the processor milliseconds that the server of a connection has used with all its connections; null where the machine does not tell. */
export async function processorOf(client: pg.Client): Promise<() => number | null> {
  const { pid } = (await client.query<{ pid: number }>('SELECT pg_backend_pid() AS pid')).rows[0]!;
  const parent = statOf(pid)?.parent ?? null;
  return () => (parent === null ? null : cpuBelow(parent));
}

async function connected(connectionString: string): Promise<pg.Client> {
  const client = new pg.Client({ connectionString });
  await client.connect();
  return client;
}

/** Milliseconds of what Linux counts processor time in. */
const TICK = 10;

/** Parent of a process, and processor milliseconds of it and of those of its children that have ended; null where there is no /proc. */
function statOf(pid: number): { parent: number; cpu: number } | null {
  try {
    const fields = fs.readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ').at(-1)!.split(' ');
    return { parent: Number(fields[1]), cpu: fields.slice(11, 15).reduce((sum, ticks) => sum + Number(ticks), 0) * TICK };
  } catch {
    return null;
  }
}

function cpuBelow(parent: number): number {
  const pids = fs.readdirSync('/proc').filter((name) => /^\d+$/.test(name));
  const children = pids.map((pid) => statOf(Number(pid))).filter((one) => one?.parent === parent);
  return [statOf(parent), ...children].reduce((sum, one) => sum + (one?.cpu ?? 0), 0);
}
