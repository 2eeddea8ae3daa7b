// What is said to somebody in danger, before anything else: a wording for each danger, which counts as the firm's once an owner approved it.
import { readingGrade } from '../shared/readingGrade.ts';
import { accept, refuse, type Outcome, type Warning } from '../shared/outcome.ts';
import { DANGERS, type Danger } from './intakeWords.ts';

/**
 * Wordings to begin with. Breaker only where it is reached dry and safely; gas: out, no switch, call from outside; carbon monoxide: fresh
 * air, then 911 (common practice of utilities and fire services; local fire services and utilities go before it).
 */
export const DEFAULT_ADVICE: Record<Danger, string> = {
  electric:
    'Stay away from it. Do not touch water or metal near it. Turn the power off at the breaker only if you can reach it dry and safely. If not, leave the house and call 911 from outside.',
  gas: 'Leave the house now, with everybody in it. Do not touch any switch, plug or flame, and do not use a phone inside. From outside, far from the house, call the gas company or 911.',
  carbon_monoxide:
    'Get everybody out into fresh air now. Then call 911. Tell them if somebody feels sick. Do not go back in until they say that it is safe.',
  other:
    'Keep everybody away from it. If somebody is hurt, or may be hurt soon, leave the place and call 911. Do not try to fix it on your own.',
};

export type ApprovedAdvice = { danger: Danger; words: string; approvedBy: string; approvedAt: string };
/** `approved` is null while the wording is the one that ships with the service. `grade`: reading grade of the words. */
export type Advice = { danger: Danger; words: string; grade: number; approved: { by: string; at: string } | null };

/** The wording of every danger: the newest approved one (ISO instants), else the one to begin with. */
export function adviceNow(approved: readonly ApprovedAdvice[]): Advice[] {
  return (Object.keys(DANGERS) as Danger[]).map((danger) => {
    const newest = approved.filter((one) => one.danger === danger).sort((a, b) => (a.approvedAt < b.approvedAt ? 1 : -1))[0];
    const words = newest?.words ?? DEFAULT_ADVICE[danger];
    return { danger, words, grade: readingGrade(words), approved: newest ? { by: newest.approvedBy, at: newest.approvedAt } : null };
  });
}

/** The words for these dangers, in one paragraph; for all of them where nobody said which. */
export const adviceFor = (advice: readonly Advice[], dangers: readonly Danger[]): string =>
  advice
    .filter(({ danger }) => dangers.length === 0 || dangers.includes(danger))
    .map(({ words }) => words)
    .join(' ');

/** Above this a frightened reader stumbles: most adults read grade 6 at ease. */
const EASY = 7;

/** What an owner approves has to be words that can be read aloud; hard ones are approved with a warning. Refusal: advice-length. */
export function mayApproveAdvice(words: string): Outcome<string> {
  const plain = words.trim().replace(/\s+/g, ' ');
  if (plain.length < 10 || plain.length > 600) return refuse('advice-length', { least: 10, most: 600 }, 'words');
  const grade = readingGrade(plain);
  const hard: Warning[] =
    grade > EASY
      ? [{ code: 'advice-hard-to-read', text: `Reading grade ${grade}: shorter sentences and shorter words are safer. Aim at 6.` }]
      : [];
  return accept(plain, hard);
}
