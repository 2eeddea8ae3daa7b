// verify: proof that what is kept is what was written.
import { openDatabase } from '@backsight/store/database';
import { verify, type Finding } from '@backsight/usecases/backup/verify';
import { DoesNotHold } from './doesNotHold.ts';
import { beside } from './reach.ts';
import type { Context } from './context.ts';

/** @throws DoesNotHold when anything is not as it was written */
export const mustHold = (findings: readonly Finding[]): void => {
  const wrong = findings.filter((finding) => finding.wrong.length > 0);
  if (wrong.length > 0) throw new DoesNotHold(`Not everything holds: ${wrong.map(({ what }) => what).join('; ')}.`);
};

export async function verifyAll(context: Context): Promise<void> {
  const { config, say } = context;
  await beside(context, async (url) => {
    const database = await openDatabase(url, { size: 2 });
    try {
      mustHold(await verify({ reader: database.read, dataDir: config.dataDir, say }));
    } finally {
      await database.close();
    }
  });
  say('Everything holds.');
}
