// A PostgreSQL server of a test's own, which writes to disk as that of a firm does, and may be killed and started again.
import fs from 'node:fs';
import path from 'node:path';
import { startEmbedded, type EmbeddedServer } from '@backsight/store/embedded/server';

export type OwnServer = {
  port: () => number;
  /** The address of its database through another port of this machine. */
  through: (port: number) => string;
  /** Ends it hard, all of it. */
  kill: () => void;
  /** Starts it again after a kill, on another port. */
  start: () => Promise<void>;
  stop: () => Promise<void>;
};

const from = path.resolve(import.meta.dirname, '../../../packages/store/package.json');

/** Starts a server on `folder`, which the caller removes. */
export async function ownServer(folder: string): Promise<OwnServer> {
  let server: EmbeddedServer = await startEmbedded({ dataDir: folder, from });
  const noted = (): string[] => fs.readFileSync(path.join(folder, 'pg18', 'postmaster.pid'), 'utf8').split('\n');
  return {
    port: () => Number(noted()[3]),
    through: (port) => {
      const url = new URL(server.url('postgres'));
      url.port = String(port);
      return url.href;
    },
    kill: () => void process.kill(Number(noted()[0]), 'SIGKILL'),
    start: async () => void (server = await startEmbedded({ dataDir: folder, from })),
    stop: () => server.stop(),
  };
}
