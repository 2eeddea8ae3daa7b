// Whether the range of the cash ahead holds what it says: invented firms whose next 90 days are known, seeded.
import { expect, it } from 'vitest';
import { cashAhead, cashHistory, SPANS, type Flow, type Standing } from '@backsight/domain/liability/cash';

const TODAY = 20_000;
const isoOf = (day: number): string => new Date(day * 86_400_000).toISOString().slice(0, 10);

/** Numbers by chance, the same every time: a linear congruence of Numerical Recipes. */
function chance(seed: number) {
  let state = seed;
  const next = (): number => ((state = (Math.imul(state, 1664525) + 1013904223) >>> 0) + 0.5) / 4294967296;
  return {
    next,
    /** Exponential with a mean. */
    wait: (mean: number): number => -mean * Math.log(next()),
    normal: (): number => Math.sqrt(-2 * Math.log(next())) * Math.cos(2 * Math.PI * next()),
  };
}

/** Callbacks a month, scatter of their cost (of its logarithm), mean days until one is settled, years behind the firm. */
type Firm = { monthly: number; sigma: number; settle: number; years: number };

/** One invented past, what is set aside today, and what really leaves by days from today on. */
function invent({ monthly, sigma, settle, years }: Firm, { next, wait, normal }: ReturnType<typeof chance>) {
  const [flows, ahead, open] = [[] as Flow[], [] as { day: number; paid: number }[], [] as Standing[]];
  const begin = TODAY - years * 365;
  for (let day = begin + wait(30.4 / monthly), id = 0; day < TODAY + 91; day += wait(30.4 / monthly), id += 1) {
    const put = (on: number, reserved: number, paid: number): void => {
      if (on < TODAY) flows.push({ callbackId: String(id), day: isoOf(on), reserved, paid });
      else ahead.push({ day: on, paid });
    };
    const cost = Math.round(40_000 * Math.exp(sigma * normal()));
    const set = Math.floor(day + wait(5));
    const settled = Math.floor(set + 1 + wait(settle));
    const [comesToNothing, neverSetAside] = [next() < 0.2, next() < 0.3];
    const cents = neverSetAside ? 0 : Math.round(cost * (0.6 + 0.8 * next()));
    if (cents > 0) put(set, cents, 0);
    put(settled, -cents, comesToNothing ? 0 : cost);
    if (cents > 0 && set < TODAY && settled >= TODAY) open.push({ cents, since: isoOf(set) });
  }
  return { history: cashHistory(flows, isoOf(begin), isoOf(TODAY - 1)), open, ahead };
}

const FIRMS: readonly Firm[] = [
  { monthly: 0.8, sigma: 1.4, settle: 120, years: 2 },
  { monthly: 2.4, sigma: 1, settle: 45, years: 3 },
  { monthly: 10, sigma: 1, settle: 60, years: 2 },
];

it('holds about 8 of 10 spans, of 30 days and of 90', () => {
  const draw = chance(2026);
  for (const span of SPANS) {
    let [told, held] = [0, 0];
    for (let trial = 0; trial < 450; trial += 1) {
      const { history, open, ahead } = invent(FIRMS[trial % FIRMS.length]!, draw);
      const found = cashAhead(open, history, isoOf(TODAY), span);
      if (!found.ok) continue;
      const left = ahead.reduce((sum, { day, paid }) => sum + (day < TODAY + span ? paid : 0), 0);
      told += 1;
      if (left >= found.lower && left <= found.upper) held += 1;
    }
    expect(told).toBeGreaterThan(430);
    expect(held / told, `held of ${span} days`).toBeGreaterThan(0.78);
    expect(held / told, `held of ${span} days`).toBeLessThan(0.9);
  }
});

it('says of a firm in its first year that the range holds fewer', () => {
  const draw = chance(7);
  const ofTen = (years: number) => {
    const { history, open } = invent({ monthly: 10, sigma: 1, settle: 60, years }, draw);
    const found = cashAhead(open, history, isoOf(TODAY), 30);
    return found.ok && found.ofTen;
  };
  expect([0.8, 0.98, 1.05, 2].map(ofTen)).toEqual([7, 7, 8, 8]);
});
