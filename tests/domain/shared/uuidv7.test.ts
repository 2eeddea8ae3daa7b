// Ids against the example of RFC 9562, appendix A.6: unix_ts_ms 0x017F22E279B0, version 7, variant 10x.
import { expect, it } from 'vitest';
import { uuidv7 } from '../../../packages/usecases/src/ids.ts';

const AT = new Date('2022-02-22T14:22:22-05:00');

it('holds the milliseconds, the version and the variant where the standard has them', () => {
  expect(uuidv7(AT)).toMatch(/^017f22e2-79b0-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
});
it('sorts ids of one millisecond as they were made, and before those of the next', () => {
  const made = Array.from({ length: 5_000 }, () => uuidv7(AT));
  expect(made.toSorted()).toEqual(made);
  expect(new Set(made).size).toBe(made.length);
  expect(made.at(-1)! < uuidv7(new Date(AT.getTime() + 1))).toBe(true);
});
