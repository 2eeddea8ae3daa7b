// What each cause means and when it is the right one, for whoever chooses; kinds of human error, and what may have contributed.
import type { Cause } from './words.ts';

/** One plain sentence, and an example of when. */
export const GUIDANCE: Record<Cause, { means: string; when: string }> = {
  skipped: {
    means: 'The step was asked and nobody did it.',
    when: 'The step "attic insulation depth" has no entry, and the hatch was open.',
  },
  done_wrongly: {
    means: 'The step was done, but not as it is written, or what was seen was recorded wrongly.',
    when: 'The step asks for two readings; one was taken and written down twice.',
  },
  not_in_procedure: {
    means: 'The pair did all that the procedure asked, and the procedure does not ask for this.',
    when: 'A device was tripped and reset as written, and no step says to look whether the receptacles behind it came back.',
  },
  unclear: {
    means: 'The step can be read in two ways, and the pair did one of them.',
    when: 'The step says "check the exterior outlets", and does not say whether those on the detached garage count.',
  },
  not_accessible: {
    means: 'It could not be seen or reached on the day, and the record says so.',
    when: 'Stored boxes stood before the panel; the record names them and the report says that it was not inspected.',
  },
  arose_later: {
    means: 'It was not there on the day of the inspection.',
    when: 'A water heater that ran on the day failed three weeks later.',
  },
  was_reported: {
    means: 'The report that was handed over says it.',
    when: 'The report names the cracked flue tile, and the caller had not read that page.',
  },
  out_of_scope: {
    means: 'The agreement and the standard leave it out.',
    when: 'The pipe is below ground, and no sewer inspection was ordered.',
  },
  damaged_on_visit: {
    means: 'Somebody of the firm damaged it or left it other than it was found.',
    when: 'A ladder foot cracked a deck board.',
  },
  service_or_conduct: {
    means: 'It is about how somebody was treated or when things were done, not about the house.',
    when: 'The pair came an hour late and nobody had called.',
  },
  nothing_shown: {
    means: 'It was looked into, and nothing shows that the work was at fault.',
    when: 'On the second visit the window opened and closed as it was recorded.',
  },
};

/** Kinds of human error at a step, from the human-error literature (1990, from memory); the last two are no error at all (trade fit, common practice). */
export const ERROR_KINDS = {
  slip: 'slip: the right plan, a wrong movement',
  lapse: 'lapse: something was forgotten on the way',
  rule_mistake: 'mistake by rule: a good rule for another situation',
  knowledge_mistake: 'mistake by knowledge: what it needed was not known',
  violation_routine: 'violation, routine: everybody leaves it out',
  violation_situational: 'violation, situational: the day made it hard to do as written',
  violation_optimizing: 'violation, optimizing: a shorter way was taken',
  violation_exceptional: 'violation, exceptional: something unheard of happened',
  procedure_gap: 'no error: the step is absent or unclear',
  hidden: 'no error: hidden, not visible on the day',
} as const;
export type ErrorKind = keyof typeof ERROR_KINDS;
/** What is no error needs no step. */
const NO_ERRORS: readonly ErrorKind[] = ['procedure_gap', 'hidden'];
export const isError = (kind: ErrorKind): boolean => !NO_ERRORS.includes(kind);

export const CIRCUMSTANCES = {
  time_pressure: 'time pressure',
  weather: 'weather',
  occupied: 'somebody lived there, or things stood in the way',
  split_unclear: 'who of the pair does it was unclear',
  kit_missing: 'kit was missing',
  light: 'light',
  other: 'something else',
} as const;
export type Circumstance = keyof typeof CIRCUMSTANCES;
