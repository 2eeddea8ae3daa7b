// Estimates of independent contractors, compared before one is paid.
import { accept, refuse, type Outcome, type Warning } from '../shared/outcome.ts';
import { sameName } from './approval.ts';

export type Estimated = { id: string; contractor: string; cents: number };

/** An estimate of somebody else than the firm, of a day that has come. Days are ISO. */
export function checkEstimate(
  estimate: { contractor: string; cents: number; estimatedOn: string },
  { firmName, today }: { firmName: string; today: string },
): Outcome<null> {
  if (sameName(estimate.contractor, firmName)) return refuse('own-repair-payee', {}, 'contractor');
  if (estimate.cents <= 0) return refuse('remedy-needs-amount', {}, 'cents');
  return estimate.estimatedOn > today ? refuse('in-the-future', { day: estimate.estimatedOn }, 'estimatedOn') : accept(null);
}

const FEW: Warning = { code: 'few-estimates', text: 'There are fewer than two estimates: a second one shows that the first is fair.' };
const NOT_LOWEST: Warning = { code: 'not-the-lowest', text: 'This is not the lowest estimate on file.' };

/** The estimate that a contractor is paid by: its amount and name are those of the remedy, and somebody says why this one. */
export function chooseEstimate(
  all: readonly Estimated[],
  chosen: { estimateId: string | null; cents: number; payee: string; words: string },
): Outcome<null> {
  const few = new Set(all.map(({ contractor }) => contractor.toLowerCase().trim())).size < 2 ? [FEW] : [];
  if (chosen.estimateId === null) return accept(null, few);
  const one = all.find(({ id }) => id === chosen.estimateId);
  if (!one) return refuse('not-found', { thing: 'estimate' }, 'estimateId');
  if (one.cents !== chosen.cents) return refuse('not-as-estimated', { cents: one.cents }, 'cents');
  if (!sameName(one.contractor, chosen.payee)) return refuse('not-as-estimated', { cents: one.cents }, 'payee');
  if (!chosen.words.trim()) return refuse('choice-needs-why', {}, 'words');
  const lowest = Math.min(...all.map(({ cents }) => cents));
  return accept(null, one.cents > lowest ? [...few, NOT_LOWEST] : few);
}
