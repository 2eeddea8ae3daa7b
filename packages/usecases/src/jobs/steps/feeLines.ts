// The fee lines of a job: their sum, and other ones from now on.
import type { FeeLine } from '@backsight/domain/fees/schedule';
import type { EarlyEnding } from '@backsight/domain/jobs/deskRules';
import { ENDINGS } from '@backsight/domain/sitework/endedAs';
import { saveFeeLines, withdrawFeeLines } from '@backsight/store/jobs/jobs';
import type { Work } from '../../run.ts';

/** Key of the fee line that a visit leaves that ended early. */
export const endingKey = (visitId: string): string => `ending-${visitId}`;
export const isEndingKey = (rule: string): boolean => rule.startsWith('ending-');
/** Key and label under which what was charged for it stands beside the fee of the next visit. */
export const earlierLine = ({ visitId, kind }: { visitId: string; kind: EarlyEnding }): { key: string; label: string } => ({
  key: endingKey(visitId),
  label: `Earlier visit: ${ENDINGS[kind]}`,
});
/** In cents. */
export const feeOf = (lines: readonly { cents: number }[]): number => lines.reduce((sum, { cents }) => sum + cents, 0);

export async function replaceLines(work: Work, jobId: string, lines: readonly FeeLine[]): Promise<void> {
  await withdrawFeeLines(work.tx, jobId, work.now);
  await saveFeeLines(work.tx, jobId, lines, { newId: work.newId, at: work.now });
}
