// new-key: makes another key of the installation and encrypts anew what the database holds under it. The service must be stopped.
import { randomBytes } from 'node:crypto';
import fs from 'node:fs';
import { openDatabase } from '@backsight/store/database';
import { KEY_BYTES, secretKey, secretKeyFile } from '@backsight/store/secretKey';
import { uuidv7 } from '@backsight/usecases/ids';
import { takeNewKey } from '@backsight/usecases/people/newKey';
import { createRunner } from '@backsight/usecases/run';
import { WrongSetting } from '../config.ts';
import type { Context } from './context.ts';
import { alone } from './reach.ts';

/** The new key lies beside the old one until the rows are under it, so that a run that was cut off is finished by the next. */
export async function newKey(context: Context): Promise<void> {
  const { dataDir } = context.config;
  await alone(context, async (url) => {
    const before = secretKey(dataDir);
    const next = `${secretKeyFile(dataDir)}.next`;
    if (!fs.existsSync(next)) fs.writeFileSync(next, randomBytes(KEY_BYTES), { mode: 0o600 });
    const database = await openDatabase(url, { size: 2 });
    try {
      const clock = () => new Date();
      const runner = createRunner({ database, clock, newId: () => uuidv7(clock()) });
      const taken = await runner.run(takeNewKey, { before, after: fs.readFileSync(next) }, { actor: { kind: 'service' } });
      if (!taken.ok)
        throw new WrongSetting('A second factor opens with no key that is here: take it off first (second-factor-off ADDRESS).');
      fs.renameSync(next, secretKeyFile(dataDir));
      context.say(`The installation has a new key; ${taken.value.secrets} second factors are encrypted under it. Make a backup now.`);
    } finally {
      await database.close();
    }
  });
}
