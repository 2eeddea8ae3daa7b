// The code that lets whoever reads the console set up the firm. It comes from the key of the installation, so that every service on it has the same.
import { createHmac } from 'node:crypto';
import { codeDigest, setUpNeeded } from '@backsight/usecases/firm/setUp';
import type { Reader } from '@backsight/store/database';
import { STARTER } from '../../../../prisma/seed/starter/starter.ts';
import type { Config } from '../config.ts';
import type { SetUpParts } from '../http/services.ts';

const LETTERS = 'abcdefghjkmnpqrstuvwxyz23456789';

/** Three groups of four letters: 59 bits. */
function codeOf(key: Buffer): string {
  const letters = [...createHmac('sha256', key).update('set-up').digest()].slice(0, 12).map((byte) => LETTERS[byte % LETTERS.length]!);
  return [0, 4, 8].map((from) => letters.slice(from, from + 4).join('')).join('-');
}

/** Prints the code when the database holds no firm and none is made by itself. */
export async function setUpParts(reader: Reader, config: Config, key: Buffer, say: (line: string) => void): Promise<SetUpParts> {
  if (config.demo || !(await setUpNeeded(reader))) return { codeSha256: null, starter: STARTER };
  const code = codeOf(key);
  say(`\nThis database holds no firm yet. Set it up at ${config.publicUrl}/set-up with this code: ${code}`);
  return { codeSha256: codeDigest(code), starter: STARTER };
}
