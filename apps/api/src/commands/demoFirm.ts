// The demo firm at the start of the service: made once in an empty database, and its sign-ins said at every start.
import type { Database } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';
import type { Runner } from '@backsight/usecases/run';
import { certificatesOnFile } from '../../../../prisma/seed/demo/certificates.ts';
import { DEMO_PASSWORD, demoSignIns, seedDemo } from '../../../../prisma/seed/demo/demo.ts';
import type { Config } from '../config.ts';

type Parts = { url: string; config: Config; say: (line: string) => void; database: Database; runner: Runner; newId: () => string };

/** Fills the database when it holds no firm and a demo is wanted. Answers the lines to print when the service is ready. */
export async function demoFirm({ url, config, say, database, runner, newId }: Parts): Promise<string[]> {
  if (!config.demo) return [];
  const { read: reader } = database;
  const firm = await findFirm(reader);
  if (firm === null) {
    const now = new Date();
    await seedDemo(url, { now, publicUrl: config.publicUrl, say });
    await certificatesOnFile({ reader, runner, newId, directory: config.dataDir, now });
  }
  return firm === null || firm.demo ? signInLines() : [];
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
