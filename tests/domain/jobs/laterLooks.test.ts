// What the season puts off. The rules are those of the starter set; limits of the outdoor air for cooling are common in the trade.
import { describe, expect, it } from 'vitest';
import { laterLooksOf, nextDay } from '@backsight/domain/jobs/laterLooks';
import { deskRulesSchema } from '@backsight/domain/jobs/stored';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import { DESK_RULES } from '../../../prisma/seed/starter/deskRules.ts';

const keys = (day: string, facts: PropertyFacts) =>
  laterLooksOf(DESK_RULES.laterLooks, { facts, services: ['inspection'], day }).map(({ key, remindOn }) => `${key} ${remindOn}`);
const HOUSE: PropertyFacts = { kind: 'single_family', coolingSystems: 1 };

describe('later looks', () => {
  it.each<[string, string, PropertyFacts, string[]]>([
    ['in January both', '2027-01-12', HOUSE, ['cooling 2027-05-15', 'roof 2027-04-10']],
    ['in December both, next year', '2026-12-05', HOUSE, ['cooling 2027-05-15', 'roof 2027-04-10']],
    ['in April the cooling', '2027-04-05', HOUSE, ['cooling 2027-05-15']],
    ['in July nothing', '2026-07-05', HOUSE, []],
    ['no cooling, no look at it', '2027-04-05', { ...HOUSE, coolingSystems: 0 }, []],
    ['no roof of its own', '2027-01-12', { kind: 'condominium', coolingSystems: 0 }, []],
    ['what is not known is offered', '2027-04-05', {}, ['cooling 2027-05-15']],
  ])('%s', (_, day, facts, expected) => {
    expect(keys(day, facts)).toEqual(expected);
  });
  it('remind on the next such day', () => {
    expect(nextDay('05-15', '2026-05-15')).toBe('2027-05-15');
    expect(nextDay('02-29', '2027-01-01')).toBe('2027-03-01');
    expect(nextDay('02-29', '2028-01-01')).toBe('2028-02-29');
  });
  it('are stored in a checked shape', () => {
    expect(deskRulesSchema.safeParse(DESK_RULES).success).toBe(true);
    expect(deskRulesSchema.safeParse({ ...DESK_RULES, endings: { ...DESK_RULES.endings, nobody_came: 101 } }).success).toBe(false);
    expect(deskRulesSchema.safeParse({ ...DESK_RULES, laterLooks: [{ ...DESK_RULES.laterLooks[0], remindOn: '13-01' }] }).success).toBe(
      false,
    );
  });
});
