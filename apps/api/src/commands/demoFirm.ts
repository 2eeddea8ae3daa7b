// The demo firm at the start of the service: made once in an empty database, and its sign-ins said at every start.
import type { Database } from '@backsight/store/database';
import { knownCluster } from '@backsight/store/embedded/location';
import { findFirm } from '@backsight/store/firm';
import type { Runner } from '@backsight/usecases/run';
import { DEMO_PASSWORD, demoSignIns } from '../../../../prisma/seed/demo/people.ts';
import type { Context } from './context.ts';
import { demoProcess, type DemoProcess } from './demoProcess.ts';

type Parts = { url: string; database: Database; runner: Runner; newId: () => string };
type Making = { process: DemoProcess; now: Date; made: Promise<unknown> };

export type DemoFirm = {
  /** Begins to make one that will surely be wanted, beside the making of its database. */
  begin: () => void;
  /** Fills the database when it holds no firm and a demo is wanted. Answers the lines to print when the service is ready. */
  load: (parts: Parts) => Promise<string[]>;
  /** Ends what is under way. */
  end: () => Promise<void>;
};

/** `url`: the database, where it is there already; the built-in one lets its past come behind. */
function make({ config, root, say }: Context, url?: string): Making {
  say('making the demo firm: twelve weeks of jobs around today ...');
  const [process, now] = [demoProcess(root), new Date()];
  const made = process.ask({ what: 'make', now: now.getTime(), publicUrl: config.publicUrl, ...(url ? { url } : {}) });
  made.catch(() => {}); // heard when it is loaded
  return { process, now, made };
}

export function demoFirm(context: Context): DemoFirm {
  const { config, say } = context;
  let making: Making | null = null;
  const end = async (): Promise<void> => making?.process.end();
  const fill = async ({ url, database, runner, newId }: Parts): Promise<void> => {
    making ??= make(context, url);
    const { process, now, made } = making;
    await made;
    say('loading it into the database ...');
    const rows = await process.ask({ what: 'load', url });
    await end();
    say(`the demo firm is there (${rows.toLocaleString()} rows)`);
    const { certificatesOnFile } = await import('../../../../prisma/seed/demo/certificates.ts');
    await certificatesOnFile({ reader: database.read, runner, newId, directory: config.dataDir, now });
  };
  return {
    begin: () => {
      if (config.demo && !config.databaseUrl && knownCluster(config.dataDir) === null) making = make(context);
    },
    end,
    load: async (parts) => {
      if (!config.demo) return [];
      const firm = await findFirm(parts.database.read);
      if (firm === null) await fill(parts);
      return firm === null || firm.demo ? signInLines() : [];
    },
  };
}

const signInLines = (): string[] => {
  const people = demoSignIns();
  const width = (of: (one: (typeof people)[number]) => string): number => Math.max(...people.map((one) => of(one).length));
  const [name, role] = [width((one) => one.name), width((one) => one.role)];
  return [
    'Demo sign-ins (invented people, fresh data around today):',
    ...people.map((one) => `  ${one.name.padEnd(name)}  ${one.role.padEnd(role)}  ${one.email}`),
    `  password of all of them: ${DEMO_PASSWORD}`,
  ];
};
