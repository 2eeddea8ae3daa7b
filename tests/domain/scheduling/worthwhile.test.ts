// Moves that are worth making: a costly one is left away, a day that is better as booked stays, a broken day keeps every move.
import { describe, expect, it } from 'vitest';
import { PLAN_BUDGET, PLAN_WEIGHTS } from '@backsight/scheduling/plan/defaults';
import { costOf } from '@backsight/scheduling/plan/cost';
import { planFrom, placementsOf } from '@backsight/scheduling/plan/difference';
import type { Placement, PlanInput, PlanResult, PlanVisit } from '@backsight/scheduling/plan/model';
import { estimatedTravel } from '@backsight/scheduling/travel';
import { worthwhile } from '@backsight/scheduling/worthwhile';
import { BIRCHMERE, NINE, person, PORT_ANSEL, TUE } from './cast.ts';

const at = (first: string, second: string, start: number): Placement => ({ first, second, start });
const visit = (id: string, current: Placement, change: Partial<PlanVisit> = {}): PlanVisit => ({
  id,
  label: id,
  place: BIRCHMERE,
  durationMinutes: 120,
  crewSize: 2,
  window: { from: 480, until: 900 },
  promise: null,
  needEach: [],
  needAny: [],
  kit: [],
  involves: [],
  reportMinutes: 0,
  current,
  announced: false,
  locked: false,
  underWay: false,
  ...change,
});
const input = (visits: PlanVisit[], out: string[] = []): PlanInput => ({
  day: TUE,
  people: ['ann', 'ben', 'cal', 'dot', 'eve', 'fay', 'gil', 'hal'].map((id) => ({
    ...person(id, {
      base: id < 'cal' || id > 'eve' ? BIRCHMERE : PORT_ANSEL,
      off: out.includes(id) ? [{ day: TUE, start: 0, end: 1440, why: 'ill' }] : [],
    }),
    overtimeLimit: 0,
    targetMinutes: 120,
  })),
  visits,
  pairRules: [],
  kit: [],
  together: [],
  weights: PLAN_WEIGHTS,
  grid: 15,
  keepPromises: true,
  budget: PLAN_BUDGET,
  seed: 1,
});
const result = (asked: PlanInput, placements: Record<string, Placement>): PlanResult => {
  const plan = planFrom(new Map(Object.entries(placements)));
  const { cost, parts } = costOf(asked, plan, estimatedTravel);
  const leftOut = asked.visits.filter(({ id }) => !(id in placements)).map(({ id }) => ({ visitId: id, reasons: ['no place'] }));
  const work = { routes: 0, members: 0, columns: 0, lpRounds: 0, cuts: 0, moves: 0, nodes: 0 };
  const proof = { bound: cost, proven: true, gapPercent: 0, within: 'crews that stay together' as const };
  return { plan, cost, parts, leftOut, stopped: false, work, ...proof };
};
const crews = ({ plan }: PlanResult) => Object.fromEntries([...placementsOf(plan)].map(([id, { first, second }]) => [id, [first, second]]));

describe('moves that are worth making', () => {
  it('leave a group away that only costs', () => {
    const asked = input([visit('south', at('cal', 'dot', NINE)), visit('mill', at('gil', 'hal', 780))]);
    const found = result(asked, { south: at('ann', 'ben', NINE), mill: at('eve', 'cal', 780) });
    const better = worthwhile(asked, found, estimatedTravel);
    expect(crews(better.result)).toEqual({ south: ['ann', 'ben'], mill: ['gil', 'hal'] });
    expect(better.result.cost).toBeLessThan(found.cost);
    expect(better.difference.groups).toHaveLength(1);
  });
  it('change nobody for nothing', () => {
    const asked = input([visit('south', at('ann', 'ben', NINE))]);
    expect(worthwhile(asked, result(asked, { south: at('ben', 'ann', NINE) }), estimatedTravel).difference.groups).toEqual([]);
  });
  it('leave a day as it is booked when another partner in the afternoon keeps a visit', () => {
    const asked = input([visit('early', at('ann', 'ben', NINE)), visit('late', at('ann', 'fay', 780))]);
    const better = worthwhile(asked, result(asked, { early: at('ann', 'ben', NINE) }), estimatedTravel);
    expect(better.result.leftOut).toEqual([]);
    expect(better.difference.groups).toEqual([]);
  });
  it('keep every move of a day that cannot take place as it is', () => {
    const asked = input([visit('south', at('ann', 'ben', NINE))], ['ben']);
    const found = result(asked, { south: at('ann', 'cal', NINE) });
    expect(worthwhile(asked, found, estimatedTravel).result).toBe(found);
  });
});
