// second-factor-off ADDRESS: for an owner who lost phone and recovery codes, where no other owner is there to help. Whoever reaches this machine may.
import { openDatabase } from '@backsight/store/database';
import { findByEmail } from '@backsight/store/sessions';
import { uuidv7 } from '@backsight/usecases/ids';
import { resetSecondFactor } from '@backsight/usecases/people/secondFactor';
import { createRunner } from '@backsight/usecases/run';
import { WrongSetting } from '../config.ts';
import type { Context } from './context.ts';
import { beside } from './reach.ts';

export async function secondFactorOff(context: Context, [email]: readonly string[]): Promise<void> {
  if (!email) throw new WrongSetting('Say whose: second-factor-off ADDRESS, the e-mail address that the person signs in with.');
  await beside(context, async (url) => {
    const database = await openDatabase(url, { size: 2 });
    try {
      const person = await findByEmail(database.read, email);
      if (!person) throw new WrongSetting(`Nobody signs in with ${email}.`);
      const clock = () => new Date();
      const runner = createRunner({ database, clock, newId: () => uuidv7(clock()) });
      await runner.run(resetSecondFactor, { personId: person.id, password: '' }, { actor: { kind: 'service' } });
      context.say(`${person.name} is signed out everywhere, and signs in with the password alone.`);
    } finally {
      await database.close();
    }
  });
}
