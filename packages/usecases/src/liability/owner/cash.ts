// Cash likely to leave in the next 30 and 90 days, from what is set aside now and how such money used to leave.
import { cashAhead, chanceOf, expectedOf, SPANS, type Cash, type CashHistory, type NoCash } from '@backsight/domain/liability/cash';
import { dayNumber } from '@backsight/domain/liability/dayNumber';
import { readCashHistory } from '@backsight/domain/liability/stored';
import { formatUsd } from '@backsight/domain/shared/money';
import { openReserves, storedCashHistory, type OpenReserve } from '@backsight/store/liability/money';
import type { Reader } from '@backsight/store/database';

const NOTHING: CashHistory = { left: [], new: [] };
const NOT_YET = {
  ok: false as const,
  sentence: 'Cannot be estimated because how money left before is summed up tonight for the first time.',
};

/** The estimates with their method, and what they rest on. */
export async function cashOf(reader: Reader, today: string, seeOwnerOnly: boolean) {
  const stored = await storedCashHistory(reader);
  const history = stored === null ? NOTHING : readCashHistory(stored);
  const reserves = await openReserves(reader, seeOwnerOnly);
  const [days30, days90] = SPANS.map((span) => (stored === null ? NOT_YET : estimateOf(cashAhead(reserves, history, today, span))));
  return { cash: { days30: days30!, days90: days90! }, reserves: reserves.map((row) => reserveRow(row, history, today)), history };
}

function estimateOf(cash: Cash | NoCash) {
  if (!cash.ok) return { ok: false as const, sentence: cash.sentence };
  const { cents, lower, upper, span, fromReserves, fromNew, stretches, ofTen } = cash;
  const holds =
    ofTen < 8
      ? `Less than a year lies behind the firm, so the range is weaker than later: it holds about ${ofTen} of 10 such spans, not 8`
      : `The range holds about ${ofTen} of 10 such spans`;
  const method = `${formatUsd(fromReserves)} of what is set aside now, by how much of such money used to leave within ${span} days; ${formatUsd(fromNew)} that nothing is set aside for yet, the mean of the last ${stretches} stretches of ${span} days. ${holds}; when it does not, more leaves than it says rather than less.`;
  return { ok: true as const, cents, lower, upper, ofTen, method };
}

function reserveRow(row: OpenReserve, history: CashHistory, today: string) {
  const [days30, days90] = SPANS.map((span) => {
    const chance = chanceOf(history, row.since, today, span);
    return chance && { ...chance, cents: expectedOf(row.cents, chance) };
  });
  return { ...row, days: dayNumber(today) - dayNumber(row.since), days30: days30 ?? null, days90: days90 ?? null };
}
