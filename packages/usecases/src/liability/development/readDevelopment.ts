// The page of development: the triangle, the factors, what each period is likely to end with, and why.
import { METHODS } from '@backsight/domain/liability/development/choice';
import type { Grain } from '@backsight/domain/liability/development/periods';
import { development, type Development, type Measured } from '@backsight/domain/liability/development/triangle';
import { accept, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { estimate, type Choice, type Outlook } from './estimate.ts';
import { knownOn } from './knownOn.ts';
import { outstanding } from './outstanding.ts';
import { explain, longer } from './words.ts';

export type DevelopmentAsked = {
  now: Date;
  by: Grain;
  of: Measured;
  asOf?: string | undefined;
  method: Choice;
  seeOwnerOnly: boolean;
  /** Callbacks, or cents, expected of 100 jobs. */
  expected?: number | undefined;
};

/** As it was known at the end of a day. Amounts in whole cents, or callbacks to a hundredth. */
export async function readDevelopment(reader: Reader, asked: DevelopmentAsked) {
  const known = await knownOn(reader, { now: asked.now, day: asked.asOf, seeOwnerOnly: asked.seeOwnerOnly });
  if (!known.ok) return known;
  const { today, day, rows } = known.value;
  const of = development(rows, { grain: asked.by, of: asked.of, asOf: day });
  const found = estimate(of, { choice: asked.method, expected: asked.expected });
  return accept({
    today,
    asOf: day,
    by: of.grain,
    of: of.of,
    method: asked.method,
    expected: asked.expected ?? null,
    wholeUntil: of.wholeUntil,
    folded: of.folded,
    notInspected: of.notInspected,
    origins: of.origins.map((origin, at) => ({
      name: origin.name,
      jobs: origin.jobs,
      callbacks: origin.callbacks,
      cells: origin.cells,
      whole: origin.whole,
      latest: origin.latest,
      outlook: found.ok ? outlookOf(found, at, rounded(of)) : null,
    })),
    estimate: found.ok
      ? shown(of, found, { chosen: METHODS.some((one) => one === asked.method), said: asked.expected !== undefined })
      : { ok: false as const, code: found.code, sentence: found.sentence, longer: longer(of.grain) },
    outstanding: outstanding(rows, day),
  });
}

export type DevelopmentPage = Awaited<ReturnType<typeof readDevelopment>> extends Outcome<infer T> ? T : never;

type Round = (value: number) => number;
/** Whole cents; callbacks to a hundredth. */
const rounded = ({ of }: Development): Round => (of === 'callbacks' ? (value) => Math.round(value * 100) / 100 : Math.round);
const orNull = (round: Round, value: number | null): number | null => (value === null ? null : round(value));

function outlookOf({ origins }: Outlook, at: number, round: Round) {
  const each = origins[at]!;
  return {
    method: each.method,
    why: each.why,
    shareKnown: each.shareKnown,
    ultimate: round(each.ultimate),
    unreported: round(each.unreported),
    standardError: orNull(round, each.standardError),
    projected: each.projected.map(round),
  };
}

function shown(of: Development, found: Outlook, how: { chosen: boolean; said: boolean }) {
  const round = rounded(of);
  const { latest, ultimate, unreported, standardError, range } = found.totals;
  return {
    ok: true as const,
    factors: found.pattern.factors.map(({ from, to, factor, rows }, at) => ({
      from,
      to,
      factor,
      rows,
      standardError: found.factorErrors.ok ? found.factorErrors.each[at]! : null,
      shareKnown: found.pattern.shares[from]!,
    })),
    factorErrors: found.factorErrors.ok ? null : found.factorErrors.sentence,
    expectedPer100: orNull(round, found.expectedPer100),
    totals: {
      latest,
      ultimate: round(ultimate),
      unreported: round(unreported),
      standardError: orNull(round, standardError),
      range: range && { lower: round(range.lower), upper: round(range.upper) },
    },
    because: explain(of, found, how),
    // Where an error cannot be told, longer periods may help.
    longer: found.noError === null ? null : longer(of.grain),
  };
}
