// The steps beside each other: how often each applied and failed, what its callbacks cost, and how often it was left out.
import { incurred } from '@backsight/domain/callbacks/money';
import type { Reader } from '@backsight/store/database';
import {
  appliedByLine,
  firstMonth,
  nearMissesByLine,
  stepLines,
  tracedByLine,
  type LineRow,
  type Months,
} from '@backsight/store/liability/steps';
import { rateOf, shareOf } from './steps/words.ts';

/** Months of inspection, YYYY-MM; `system` as procedures name it. */
export type StepsAsked = Partial<Months> & { system?: string };

const NOTHING = {
  ...{ times: 0, jobs: 0, judged: 0, skipped: 0, couldNot: 0, differed: 0 },
  ...{ failures: 0, nearMisses: 0, paidCents: 0, reservedCents: 0, recoveredCents: 0 },
};
type Sums = typeof NOTHING;

/** One line per step that applied, failed or cost something in the months, most failures first. */
export async function readSteps(reader: Reader, { from = null, until = null, system }: StepsAsked) {
  const months = { from, until };
  const lines = await stepLines(reader);
  const sums = new Map<string, Sums>();
  const add = (rows: readonly ({ root: string } & Partial<Sums>)[]): void => {
    for (const { root, ...row } of rows) sums.set(root, { ...(sums.get(root) ?? NOTHING), ...row });
  };
  add(await appliedByLine(reader, months));
  add(await tracedByLine(reader, months));
  add(await nearMissesByLine(reader, months));
  const steps = lines
    .filter((line) => system === undefined || line.system === system)
    .flatMap((line) => {
      const found = sums.get(line.root);
      return found ? [lineJson(line, found)] : [];
    })
    .sort((a, b) => b.failures - a.failures || b.nearMisses - a.nearMisses || b.times - a.times || (a.stepKey < b.stepKey ? -1 : 1));
  return {
    ...months,
    system: system ?? null,
    firstMonth: await firstMonth(reader),
    systems: [...new Set(lines.map((line) => line.system))],
    ...paretoWords(steps),
    steps,
  };
}

function lineJson({ root, title, procedureId, procedureTitle, system }: LineRow, found: Sums) {
  const { judged, skipped, couldNot, differed, ...counted } = found;
  return {
    ...{ stepKey: root, title, procedureId, procedureTitle, system },
    ...counted,
    incurredCents: incurred(found),
    rate: rateOf(found),
    skipped: shareOf(skipped, judged),
    couldNot: shareOf(couldNot, judged),
    differed: shareOf(differed, judged),
  };
}

type Weighed = { title: string; failures: number; incurredCents: number };

/** The few steps that make most of the failures, and of the cost, in a sentence each. */
const paretoWords = (steps: readonly Weighed[]) => ({
  failuresSentence: fewOf(steps, ({ failures }) => failures, 'failures', 'No callback has been traced to a step in these months.'),
  costSentence: fewOf(
    steps,
    ({ incurredCents }) => incurredCents,
    'cost',
    'No callback that was traced to a step has cost anything in these months.',
  ),
});

const MOST = 0.8;

function fewOf(steps: readonly Weighed[], of: (step: Weighed) => number, what: 'failures' | 'cost', none: string): string {
  const ordered = steps.filter((step) => of(step) > 0).sort((a, b) => of(b) - of(a));
  const total = ordered.reduce((sum, step) => sum + of(step), 0);
  const [first] = ordered;
  if (!first) return none;
  let [few, sum] = [0, 0];
  while (sum < MOST * total) sum += of(ordered[few++]!);
  const most = `${Math.round((100 * sum) / total)} % of the ${what}`;
  if (few === ordered.length && few > 1)
    return `It takes all ${few} steps to make ${Math.round(100 * MOST)} % of the ${what}: no few stand out. The most by "${first.title}" (${Math.round((100 * of(first)) / total)} %).`;
  if (ordered.length === 1) return `All of the ${what} ${what === 'cost' ? 'is' : 'are'} traced to one step: ${first.title}.`;
  return `${few === 1 ? '1 step makes' : `${few} of ${ordered.length} steps make`} ${most}; the most by "${first.title}" (${Math.round((100 * of(first)) / total)} %).`;
}
