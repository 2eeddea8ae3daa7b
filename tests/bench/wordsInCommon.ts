// The simple way that came before, to measure against: words in common by a crude stem, the system, and the record.

/** A step of the job's package with its words and how its entries came out (superseded ones left out). */
type RecordedStep = {
  stepKey: string;
  title: string;
  instruction: string;
  system: string;
  results: readonly { outcome: string; match: string; partnerDiffers: boolean }[];
};
type Complaint = { system: string; words: string };
type LikelyStep = { stepKey: string; title: string; score: number; reasons: string[] };

const COMMON = new Set(
  'the and was were that this with from has have had not for are but his her its our their they them then than there when what which who been after before over under into out all any one two does did can could would should about also more some only very just nothing something house home inspection inspector report said found'.split(
    ' ',
  ),
);

/** Words of three letters and more that say something, cut to their stem so that plural and tense do not hide them. */
const stems = (text: string): Set<string> =>
  new Set(
    text
      .toLowerCase()
      .split(/[^a-z]+/)
      .filter((word) => word.length > 2 && !COMMON.has(word))
      .map((word) => word.replace(/(?:ings?|ed|es|s)$/, '').slice(0, 7)),
  );

const overlap = (a: Set<string>, b: Set<string>): string[] => [...a].filter((word) => b.has(word));

/** The steps that fit best, best first; `reasons` say why in plain words. Steps with no reason are left out. */
export function wordsInCommon(complaint: Complaint, steps: readonly RecordedStep[], most = 5): LikelyStep[] {
  const said = stems(complaint.words);
  return steps
    .map((step) => rate(step, complaint, said))
    .filter(({ score, reasons }) => score > 1 && reasons.length > 0)
    .sort((a, b) => b.score - a.score || (a.stepKey < b.stepKey ? -1 : 1))
    .slice(0, most);
}

function rate(step: RecordedStep, complaint: Complaint, said: Set<string>): LikelyStep {
  const reasons: string[] = [];
  let score = 0;
  const count = (points: number, reason: string): void => {
    score += points;
    reasons.push(reason);
  };
  if (step.system === complaint.system) count(2, 'belongs to the system that was named');
  const inTitle = overlap(said, stems(step.title));
  const inText = overlap(said, stems(step.instruction)).filter((word) => !inTitle.includes(word));
  if (inTitle.length + inText.length > 0) count(Math.min(6, 2 * inTitle.length + inText.length), 'shares words with what was said');
  for (const [points, reason] of recordReasons(step)) count(points, reason);
  return { stepKey: step.stepKey, title: step.title, score, reasons };
}

function recordReasons({ results }: RecordedStep): [number, string][] {
  const found: [number, string][] = [];
  if (results.length === 0) found.push([2, 'nothing was recorded at this step']);
  if (results.some(({ match }) => match === 'differs')) found.push([3, 'the counts did not match']);
  if (results.some(({ match }) => match === 'outside')) found.push([2, 'a reading was outside the expected range']);
  if (results.some(({ outcome }) => outcome === 'could_not')) found.push([1, 'could not be inspected']);
  if (results.some(({ partnerDiffers }) => partnerDiffers)) found.push([2, 'the two of the pair recorded different results']);
  return found;
}
