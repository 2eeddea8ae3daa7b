// Fee schedules as they come from the editor: what is kept and what is refused.
import { describe, expect, it } from 'vitest';
import { feeScheduleSchema } from '@backsight/domain/fees/stored';
import { z } from 'zod';
import { RULES, SCHEDULE } from './schedule-example.ts';

const { base } = RULES;

describe('feeScheduleSchema', () => {
  it('keeps a good schedule as it is', () => expect(feeScheduleSchema.parse(SCHEDULE)).toEqual(SCHEDULE));

  it.each([
    ['no rules', []],
    ['no base', [RULES.old]],
    ['same key twice', [base, { ...RULES.old, key: 'base' }]],
    ['broken cents', [{ ...base, bands: [{ upToSqFt: null, cents: 0.5 }] }]],
    ['negative surcharge', [base, { ...RULES.old, cents: -1 }]],
    [
      'bands that fall',
      [
        {
          ...base,
          bands: [
            { upToSqFt: 2000, cents: 1 },
            { upToSqFt: 1000, cents: 1 },
            { upToSqFt: null, cents: 1 },
          ],
        },
      ],
    ],
    ['last band with a limit', [{ ...base, bands: [{ upToSqFt: 2000, cents: 1 }] }]],
    [
      'no limit in the middle',
      [
        {
          ...base,
          bands: [
            { upToSqFt: null, cents: 1 },
            { upToSqFt: null, cents: 1 },
          ],
        },
      ],
    ],
    ['travel band with a limit', [base, { ...RULES.travel, bands: [{ upToMinutes: 30, cents: 1 }] }]],
    ['assumed size missing', [{ ...base, assume: undefined }]],
    ['step of nothing', [base, { ...RULES.size, step: 0 }]],
    ['fact that is no number', [base, { ...RULES.size, fact: 'foundation' }]],
    ['discount with both amounts', [base, { ...RULES.both, cents: 100 }]],
    ['discount with neither', [base, { ...RULES.both, percent: undefined }]],
    ['more than all', [base, { ...RULES.both, percent: 101 }]],
    ['rule that makes no sense', [base, { ...RULES.old, applies: { fact: 'yearBuilt', compare: 'below', value: 80 } }]],
    ['fee on what is found', [base, { ...RULES.old, kind: 'perConclusion' }]],
    ['fee on closing', [{ ...base, onlyIfClosed: true }]],
  ])('refuses: %s', (_name, rules) => expect(feeScheduleSchema.safeParse({ rules }).success).toBe(false));

  it('names the place of a problem', () => {
    const wrong = { rules: [base, { ...RULES.old, cents: -1 }] };
    expect(feeScheduleSchema.safeParse(wrong).error?.issues[0]?.path).toEqual(['rules', 1, 'cents']);
  });
  it.each(['input', 'output'] as const)('has a JSON schema (%s)', (io) =>
    expect(z.toJSONSchema(feeScheduleSchema, { io })).toMatchObject({ type: 'object' }),
  );
});
