// What two blind looks agree on and miss, on average over systems and quarters, never for a job or a person; and the firm's settings for it.
import { chapmanEstimate, chapmanInterval } from '@backsight/statistics/captureRecapture';
import { cohenKappa, kappaInterval, pooledKappa } from '@backsight/statistics/kappa';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { blindPairs, changeSiteworkRules, siteworkRules, type BlindPair, type SiteworkRules } from '@backsight/store/sitework/rules';
import { FIRM_THING } from '../firm/steps/localDay.ts';
import type { Act } from '../run.ts';

/** Refusal: changed-meanwhile. */
export const changeDoubleLooks: Act<SiteworkRules, { version: number }> = {
  operation: 'sitework.change-double-looks',
  run: async (work, rules): Promise<Outcome<{ version: number }>> => {
    const before = await siteworkRules(work.tx);
    if ((await changeSiteworkRules(work.tx, rules)) === 0) return refuse('changed-meanwhile');
    await work.did('firm', FIRM_THING, {
      doubleLookOneIn: rules.doubleLookOneIn,
      showAgreement: rules.showAgreement,
      oneInBefore: before.doubleLookOneIn,
      shownBefore: before.showAgreement,
    });
    return accept({ version: rules.version + 1 });
  },
};

/** Fewer than this many pairs of answers say nothing: nothing is computed for them. */
export const FEWEST = 20;

/** `lines` is null while the owner has not asked for it. */
export async function readDoubleLooks(reader: Reader) {
  const rules = await siteworkRules(reader);
  if (!rules.showAgreement) return { rules, fewest: FEWEST, lines: null, all: null };
  const pairs = await blindPairs(reader);
  return {
    rules,
    fewest: FEWEST,
    lines: groupsOf(pairs, ({ system, quarter }) => `${system}/${quarter}`).map((rows) => ({
      system: rows[0]!.system,
      quarter: rows[0]!.quarter,
      ...figuresOf(rows),
    })),
    all: figuresOf(pairs),
  };
}

const groupsOf = (rows: readonly BlindPair[], keyOf: (row: BlindPair) => string): BlindPair[][] =>
  [...new Set(rows.map(keyOf))].map((key) => rows.filter((row) => keyOf(row) === key));
const sum = (rows: readonly BlindPair[]): number => rows.reduce((total, { count }) => total + count, 0);

function figuresOf(rows: readonly BlindPair[]) {
  const pairs = sum(rows);
  const looks = {
    first: sum(rows.filter((row) => row.first !== row.nothing)),
    second: sum(rows.filter((row) => row.second !== row.nothing)),
    both: sum(rows.filter((row) => row.first !== row.nothing && row.second !== row.nothing)),
  };
  if (pairs < FEWEST) return { pairs, kappa: null, observed: null, kappaInterval: null, looks, estimate: null };
  const tables = groupsOf(rows, ({ stepKey }) => stepKey).map(tableOf);
  const pooled = pooledKappa(tables)!;
  const estimate = chapmanEstimate(looks);
  return {
    pairs,
    kappa: pooled.kappa,
    observed: pooled.observed,
    kappaInterval: tables.length === 1 ? kappaInterval(cohenKappa(tables[0]!)) : null,
    looks,
    estimate: { total: estimate.total, missed: estimate.missed, ...chapmanInterval(estimate) },
  };
}

function tableOf(rows: readonly BlindPair[]): number[][] {
  const answers = [...new Set(rows.flatMap(({ first, second }) => [first, second]))];
  return answers.map((a) => answers.map((b) => sum(rows.filter(({ first, second }) => first === a && second === b))));
}
