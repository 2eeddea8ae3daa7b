// The one-time code that lets whoever reads the console set up the firm; only its digest stays in memory.
import { randomInt } from 'node:crypto';
import { codeDigest, setUpNeeded } from '@backsight/usecases/firm/setUp';
import type { Reader } from '@backsight/store/database';
import { STARTER } from '../../../../prisma/seed/starter/starter.ts';
import type { Config } from '../config.ts';
import type { SetUpParts } from '../http/services.ts';

const LETTERS = 'abcdefghjkmnpqrstuvwxyz23456789';
const group = (): string => Array.from({ length: 4 }, () => LETTERS[randomInt(LETTERS.length)]).join('');

/** Prints a fresh code when the database holds no firm and none is made by itself. */
export async function setUpParts(reader: Reader, config: Config, say: (line: string) => void): Promise<SetUpParts> {
  if (config.demo || !(await setUpNeeded(reader))) return { codeSha256: null, starter: STARTER };
  const code = [group(), group(), group()].join('-');
  say(`\nThis database holds no firm yet. Set it up at ${config.publicUrl}/set-up with this code: ${code}`);
  return { codeSha256: codeDigest(code), starter: STARTER };
}
