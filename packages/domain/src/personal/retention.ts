// How long each kind of record is kept: the firm's policy, never shorter than what a state asks for.
import { rowsWith, type RulePack } from '../shared/rulePack.ts';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';

export const RECORDS = {
  job: {
    name: 'Job files',
    holds: 'Agreement, report, site record, photos and signatures of a job',
    from: 'the last visit, delivery or version of the report',
    years: 10,
  },
  mail: {
    name: 'Mail and call notes of a job',
    holds: 'What was written and said to people outside the firm',
    from: 'the same day',
    years: 10,
  },
  callback: {
    name: 'Callbacks',
    holds: 'What was brought against the work, what was concluded and done',
    from: 'the last thing that happened to it',
    years: 10,
  },
  inquiry: { name: 'Prices asked and not booked', holds: 'Who called, and what was offered', from: 'the day it was closed', years: 2 },
  staff: {
    name: 'Papers of former people of the firm',
    holds: 'Licenses, education, absences, hours and addresses',
    from: 'their last day at work',
    years: 7,
  },
} as const;
export type RecordKind = keyof typeof RECORDS;

/** Said wherever a time is chosen. */
export const ASK_ATTORNEY =
  'The built-in times are long on purpose: a claim may come years after the inspection, and statutes of repose and limitation differ from state to state. Ask your attorney before you choose a shorter one.';

/** Kinds to which the rules of states about keeping records apply. */
export const STATE_BOUND: readonly RecordKind[] = ['job', 'mail', 'callback'];

/** `lawSeen` is false where no law was seen and the years are a caution. */
export type StateYears = { state: string; name: string; years: number; words: string; citation: string; lawSeen: boolean };

/** What each of the states asks for: the longest row of any version of its rules. States without such a row are left out. */
export const stateYears = (packs: readonly RulePack[], states: readonly string[]): StateYears[] =>
  [...new Set(states)].sort().flatMap((state) => {
    const rows = packs
      .filter(({ jurisdiction }) => jurisdiction === state)
      .flatMap((pack) =>
        rowsWith(pack.rows, 'keep').map(({ effect, words, citation, certainty }) => ({
          ...{ state, name: pack.name || state, years: Math.ceil(effect.years) },
          ...{ words, citation, lawSeen: certainty !== 'none' },
        })),
      );
    const longest = rows.toSorted((a, b) => b.years - a.years)[0];
    return longest ? [longest] : [];
  });

/** Refusals: retention-too-short, reason-too-short. */
export function mayKeepFor(c: { kind: RecordKind; years: number; reason: string; states: readonly StateYears[] }): Outcome<null> {
  if (c.reason.trim().length < 10) return refuse('reason-too-short', {}, 'reason');
  const longer = STATE_BOUND.includes(c.kind)
    ? c.states.toSorted((a, b) => b.years - a.years).find(({ years }) => years > c.years)
    : undefined;
  if (longer) return refuse('retention-too-short', { state: longer.name, years: longer.years, citation: longer.citation }, 'years');
  return accept(null);
}

export type DueUnit = { kind: RecordKind; id: string };

/** Mail and callbacks of a job go with its file where that is due too. */
export const withoutCovered = <U extends DueUnit>(units: readonly U[]): U[] => {
  const files = new Set(units.filter(({ kind }) => kind === 'job').map(({ id }) => id));
  return units.filter(({ kind, id }) => (kind !== 'mail' && kind !== 'callback') || !files.has(id));
};

/** The kinds that are disposed of together, in this order, for one that is due. */
export const together = (kind: RecordKind): readonly RecordKind[] => (kind === 'job' ? ['mail', 'callback', 'job'] : [kind]);
