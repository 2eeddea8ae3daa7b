// Steps that a complaint may be traced to: computed when somebody looks, from its words and the record, and kept nowhere.

/** A step with how its entries came out (superseded ones left out). */
export type RecordedStep = {
  stepKey: string;
  title: string;
  system: string;
  results: readonly { outcome: string; match: string; partnerDiffers: boolean }[];
};
/** An asked word that stands in a step: A title, B instruction, C why or answers, D name of the procedure; `near` is 1, or how alike the spelling is. */
export type Hit = { stepKey: string; n: number; place: 'A' | 'B' | 'C' | 'D'; near: number };
/** What was asked: each word with what was said in its place and how surely it means that, from `askedWords`. */
export type Asked = readonly { said: string; word: string; sign: string; weight: number }[];
/** An earlier callback that was traced to a step, with the asked words (by their place in the list) that stand in its words or in its conclusion. */
export type Traced = { number: number; stepKey: string; words: readonly number[] };
export type Looked = {
  system: string;
  asked: Asked;
  steps: readonly RecordedStep[];
  hits: readonly Hit[];
  traced: readonly Traced[];
  /** Whether what was recorded says something of these steps; not for steps that were never handed out. */
  recorded: boolean;
};
export type LikelyStep = { stepKey: string; title: string; score: number; reasons: string[] };

/** What each sign weighs. Tuned on half of the labelled complaints of the bench `likely`; the other half is only measured. */
const WEIGHTS = {
  /** As `ts_rank` weighs them, but for the title, which is short. */
  place: { A: 1, B: 0.6, C: 0.35, D: 0.3 },
  system: 2,
  prior: 0.4,
  /** Times the share of the words that an earlier callback has in common. */
  traced: 12,
  /** Of what was recorded. */
  record: 0.5,
};
/** How many traced callbacks the even guess is worth: with as many real ones, half of the belief is theirs. */
const EVEN_GUESS = 20;
/** Two words in common may be chance with a small book of cases; fewer are no likeness. */
const FEWEST_IN_COMMON = 2;

/**
 * The steps that fit best, best first; `reasons` say why in plain words. Steps without any word, system or earlier case are left out.
 *
 * The score is a sum. Words: for each said word the best of the step's words that stand for it, by where it stands (title before
 * instruction), how surely it means the same, and how rare it is among these steps. The ranking functions of PostgreSQL "do not use any
 * global information" (manual, 12.3.3), so a word of every second step would count as much as one of a single step: its rarity is counted here
 * as ln(1 + (N - n + 0.5) / (n + 0.5)), N steps, n of them with the word (Robertson and Zaragoza 2009, "The probabilistic relevance
 * framework", from memory). Earlier cases: how often callbacks were traced to the step before, drawn toward an even guess
 * (n + a/K) / (N + a) with a = EVEN_GUESS and K steps (additive smoothing: Manning, Raghavan and Schütze 2008, 11.3, from memory), and how
 * much of the words the likest of them shares. Then the system that was named, and what was recorded at the step.
 */
export function likelySteps(looked: Looked, most = 5): LikelyStep[] {
  const rarity = rarityOf(looked);
  const byStep = new Map<string, Hit[]>();
  for (const hit of looked.hits) byStep.set(hit.stepKey, [...(byStep.get(hit.stepKey) ?? []), hit]);
  return looked.steps
    .map((step) => rate(step, looked, byStep.get(step.stepKey) ?? [], rarity))
    .filter(({ score, reasons }) => score > 0 && reasons.length > 0)
    .sort((a, b) => b.score - a.score || (a.stepKey < b.stepKey ? -1 : 1))
    .slice(0, most);
}

/** How much each asked word says, by its place in the list. */
function rarityOf({ asked, hits, steps }: Looked): number[] {
  const n = asked.map(() => 0);
  for (const hit of hits) n[hit.n]! += 1;
  return n.map((held) => Math.log(1 + (steps.length - held + 0.5) / (held + 0.5)));
}

function rate(step: RecordedStep, looked: Looked, hits: readonly Hit[], rarity: readonly number[]): LikelyStep {
  const reasons: string[] = [];
  const words = wordsOf(looked.asked, hits, rarity);
  if (words.said.length > 0) reasons.push(`its words: ${words.said.join(', ')}`);
  const cases = casesOf(step, looked, rarity);
  if (cases.reason !== null) reasons.push(cases.reason);
  const inSystem = step.system === looked.system;
  if (inSystem) reasons.push('belongs to the system that was named');
  const fits = words.points + cases.points + (inSystem ? WEIGHTS.system : 0);
  if (reasons.length === 0) return { stepKey: step.stepKey, title: step.title, score: 0, reasons };
  let score = fits;
  for (const [points, reason] of looked.recorded ? recordReasons(step) : []) {
    score += WEIGHTS.record * points;
    reasons.push(reason);
  }
  return { stepKey: step.stepKey, title: step.title, score, reasons };
}

/** Points of the words and how to name them, strongest first: 'freezer', 'outlet (receptacle)', 'receptical (by its spelling)'. */
function wordsOf(asked: Asked, hits: readonly Hit[], rarity: readonly number[]): { points: number; said: string[] } {
  const best = new Map<string, { points: number; said: string; name: string }>();
  for (const { n, place, near } of hits) {
    const { said, word, sign, weight } = asked[n]!;
    const points = WEIGHTS.place[place] * weight * near * rarity[n]!;
    if (points <= (best.get(sign)?.points ?? 0)) continue;
    best.set(sign, { points, said, name: near < 1 ? `${said} (by its spelling)` : word === said ? said : `${said} (${word})` });
  }
  const sorted = [...best.values()].sort((a, b) => b.points - a.points);
  const names = new Map<string, string>();
  for (const { said, name } of sorted) if (!names.has(said)) names.set(said, name);
  return { points: sorted.reduce((sum, { points }) => sum + points, 0), said: [...names.values()].slice(0, NAMED_AT_MOST) };
}
const NAMED_AT_MOST = 4;

function casesOf({ stepKey }: RecordedStep, { asked, steps, traced }: Looked, rarity: readonly number[]) {
  const here = traced.filter((one) => one.stepKey === stepKey);
  const even = 1 / Math.max(1, steps.length);
  const prior = Math.log((here.length + EVEN_GUESS * even) / (traced.length + EVEN_GUESS) / even);
  const worth = (n: number): number => (asked[n]!.weight === 1 ? rarity[n]! : 0);
  const all = asked.reduce((sum, _, n) => sum + worth(n), 0);
  const like = here
    .map(({ number, words }) => ({ number, own: words.filter((n) => worth(n) > 0) }))
    .filter(({ own }) => own.length >= FEWEST_IN_COMMON)
    .map(({ number, own }) => ({ number, share: own.reduce((sum, n) => sum + worth(n), 0) / all }));
  const likest = Math.max(0, ...like.map(({ share }) => share));
  return {
    points: WEIGHTS.prior * prior + WEIGHTS.traced * likest,
    reason:
      like.length > 0
        ? `like what was traced here before (${like.map(({ number }) => number).join(', ')})`
        : here.length > 0
          ? `${here.length === 1 ? 'one callback was' : `${here.length} callbacks were`} traced here before`
          : null,
  };
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
