// What the drawings of groups and people show, in a sentence that keeps how sure it is.
import { GROUP_WORDS, type GroupTable } from '@backsight/contract/liability/frequency';
import type { PlacedUnit } from '@backsight/contract/liability/people';
import { counted } from './monthWords.ts';

/** Of groups of one kind: which differ from the rest by more than chance explains. */
export function groupFinding({ by, rows }: GroupTable): string {
  const { count, one } = GROUP_WORDS[by];
  const [more, fewer] = (['more', 'fewer'] as const).map((side) => rows.filter(({ signal }) => signal === side).map(({ name }) => name));
  const said = (names: readonly string[], side: string): string[] => (names.length > 0 ? [`${side} ${count} at ${named(names)}`] : []);
  const told = [...said(more!, 'more'), ...said(fewer!, 'fewer')].join(', ');
  if (told === '') return `No ${one.toLowerCase()} differs from the rest by more than chance explains`;
  return `${told.charAt(0).toUpperCase()}${told.slice(1)} than chance explains`;
}

/** Names that would make a title too long are counted. */
const named = (names: readonly string[]): string => (names.length > 2 ? `${names[0]} and ${names.length - 1} others` : names.join(' and '));

/** Of pairs or people, by number: the names stand at the points and in the sentences, in no order of rank. */
export function funnelFinding(units: readonly PlacedUnit[], one: string, more: string): string {
  const [far, near] = (['beyond_998', 'beyond_95'] as const).map((at) => units.filter(({ position }) => position === at).length);
  const of = `of ${counted(units.length, one, more)}`;
  if (far! > 0) return `${far} ${of} ${far === 1 ? 'lies' : 'lie'} where chance alone puts 1 in 500`;
  if (near! > 0) return `${near} ${of} ${near === 1 ? 'lies' : 'lie'} outside the inner limits; chance alone puts 1 in 20 there`;
  return units.length === 1
    ? 'What was found lies within what chance allows'
    : `All ${counted(units.length, one, more)} lie within what chance allows`;
}
