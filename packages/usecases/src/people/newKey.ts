// Another key of the installation: what the old one opens is encrypted anew under it.
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { factorSecrets, storeFactorSecret } from '@backsight/store/people/secondFactor';
import { FIRM_THING } from '../firm/steps/localDay.ts';
import type { Act } from '../run.ts';
import { openSecret, sealSecret } from './steps/oneTimeCode.ts';

/**
 * Encrypts every secret anew; one that is under the new key already (the last try ended half-way) stays. Answers how many there are.
 * Refusals: factor-unreadable, when one opens with neither key; nothing is changed then.
 */
export const takeNewKey: Act<{ before: Buffer; after: Buffer }, { secrets: number }> = {
  operation: 'people.new-key',
  run: async (work, { before, after }) => {
    const rows = await factorSecrets(work.tx);
    for (const { personId, secret } of rows) {
      if (openSecret(after, personId, secret) !== null) continue;
      const open = openSecret(before, personId, secret);
      if (open === null) return refuse('factor-unreadable');
      await storeFactorSecret(work.tx, personId, new Uint8Array(sealSecret(after, personId, open)));
    }
    await work.did('firm', FIRM_THING, { secrets: rows.length });
    return accept({ secrets: rows.length });
  },
};
