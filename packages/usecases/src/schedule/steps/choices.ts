// The nearest starts that are possible instead of one that is not.
import type { About } from '@backsight/domain/shared/outcome';
import { instantOf } from '@backsight/domain/schedule/wallClock';
import { findStarts } from '@backsight/scheduling/findStarts';
import { daysBetween } from '@backsight/scheduling/time';
import type { Choice, StartOption, StartQuery, World } from '@backsight/scheduling/world';

const SHOWN = 3;
const LOOKED_AT = 60;

const distance = (option: StartOption, wanted: Choice): number =>
  Math.abs(daysBetween(wanted.day, option.day) * 1440 + option.start - wanted.start);

/** The best crew of each time, nearest times first. */
function nearest(options: readonly StartOption[], wanted: Choice): StartOption[] {
  const times = new Map<string, StartOption>();
  for (const option of options) if (!times.has(`${option.day} ${option.start}`)) times.set(`${option.day} ${option.start}`, option);
  return [...times.values()].sort((a, b) => distance(a, wanted) - distance(b, wanted)).slice(0, SHOWN);
}

/** Next best choices as a refusal tells them: lists that belong together by position. Empty when there is none in the days asked. */
export function choicesAbout(world: World, query: StartQuery, wanted: Choice, zone: string): About {
  const options = nearest(findStarts(world, { ...query, limit: LOOKED_AT }).options, wanted);
  const instants = options.map((option) => instantOf(option.day, option.start, zone));
  return {
    choices:
      options.length > 0 ? `The nearest that is possible: ${options[0]!.sentence}` : 'Nothing is possible in the week from that day.',
    nextStartsAt: instants.map((at) => (at.ok ? at.value.toISOString() : '')),
    nextFirst: options.map(({ first }) => first),
    nextSecond: options.map(({ second }) => second ?? ''),
    nextSentences: options.map(({ sentence }) => sentence),
  };
}
