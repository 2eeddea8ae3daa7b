// UUID version 7 (RFC 9562): sorts by the time it was made, so that new rows land together in every index.
import { randomBytes, randomInt } from 'node:crypto';

const COUNTER_BITS = 18;
let last = { at: Number.NaN, counter: 0 };

/**
 * Makes one id for the instant given. Ids of the same millisecond made by this process one after the other sort in that order:
 * rand_a and the first bits of rand_b hold a counter that starts at a random number (RFC 9562, section 6.2, method 1).
 */
export function uuidv7(at: Date): string {
  const time = at.getTime();
  last = { at: time, counter: time === last.at ? last.counter + 1 : randomInt(2 ** (COUNTER_BITS - 1)) };
  const counter = last.counter % 2 ** COUNTER_BITS;
  const bytes = randomBytes(16);
  bytes.writeUIntBE(time, 0, 6);
  bytes[6] = 0x70 | (counter >> 14);
  bytes[7] = (counter >> 6) & 0xff;
  bytes[8] = 0x80 | (counter & 0x3f);
  const hex = bytes.toString('hex');
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-');
}
