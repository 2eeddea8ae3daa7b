// What the go-to box offers for what was typed: screens of the menu, what the service found, or the places where one was last.
import type { FoundItem } from '@backsight/contract/find';
import type { KeptSearch } from '@backsight/contract/people/keptSearches';
import type { Role } from '@backsight/contract/people';
import type { Visited } from '../../api/phone/recent.ts';
import { areaOf, groupsFor } from '../navigation.ts';

export type Choice = { key: string; group: string; href: string; title: string; about: string; at: string | null };

const GROUPS: Record<FoundItem['kind'], string> = {
  job: 'Jobs',
  property: 'Properties',
  client: 'Clients and others outside the firm',
  callback: 'Callbacks',
  step: 'Steps of the procedures in force',
  person: 'People of the firm',
};

/** The screen of what was found. */
export function hrefOf({ kind, id, of }: FoundItem['thing']): string {
  if (kind === 'jobs') return `/jobs?q=${encodeURIComponent(id)}`;
  if (kind === 'step') return `/procedures/${id}#step-${of}`;
  return { job: '/jobs/', callback: '/callbacks/', person: '/people/' }[kind] + id;
}

const found = (item: FoundItem): Choice => ({
  key: `${item.kind} ${item.thing.id} ${item.thing.of ?? ''} ${item.title}`,
  group: GROUPS[item.kind],
  href: hrefOf(item.thing),
  title: item.title,
  about: [item.about, item.state].filter(Boolean).join(', '),
  at: item.at,
});

/** Searches that somebody kept under a name with what was typed; all of them while nothing is. */
export const keptChoices = (typed: string, kept: readonly KeptSearch[]): Choice[] =>
  kept
    .filter(({ name }) => name.toLowerCase().includes(typed.toLowerCase()))
    .map(({ id, list, search, name }) => ({
      key: id,
      group: 'Kept searches',
      href: list + search,
      title: name,
      about: areaOf(list)?.label ?? '',
      at: null,
    }));

const SCREENS = 3;

/** Screens whose name holds what was typed, those that begin with it first. */
function screens(typed: string, roles: readonly Role[]): Choice[] {
  const low = typed.toLowerCase();
  const fit = groupsFor(roles)
    .flatMap(({ entries }) => entries)
    .map((entry) => ({ ...entry, at: entry.label.toLowerCase().indexOf(low) }))
    .filter(({ at }) => at >= 0);
  return fit
    .toSorted((a, b) => a.at - b.at)
    .slice(0, SCREENS)
    .map(({ to, label, about }) => ({ key: to, group: 'Screens', href: to, title: label, about, at: null }));
}

/** A number means a thing, so screens come after; words may mean either, and a screen that begins with them comes first. */
export function choicesFor(typed: string, roles: readonly Role[], items: readonly FoundItem[]): Choice[] {
  const things = items.map(found);
  const areas = screens(typed, roles);
  const first = areas.some(({ title }) => title.toLowerCase().startsWith(typed.toLowerCase()));
  return first ? [...areas, ...things] : [...things, ...areas];
}

export const recentChoices = (places: readonly Visited[]): Choice[] =>
  places.map(({ path, title }) => ({ key: path, group: 'Where you were last', href: path, title, about: '', at: null }));

export type Piece = { text: string; typed: boolean };

/** A text in pieces, those that were typed told apart. */
export function pieces(text: string, typed: string): Piece[] {
  const words = typed
    .split(/[\s,;]+/)
    .map((word) => word.replace(/^#(?=\d)/, '').replace(/[.*+?^${}()|[\]\\]/g, '\\$&'))
    .filter((word) => word.length > 1);
  if (words.length === 0) return [{ text, typed: false }];
  const at = new RegExp(`(${words.toSorted((a, b) => b.length - a.length).join('|')})`, 'gi');
  return text
    .split(at)
    .map((piece, n) => ({ text: piece, typed: n % 2 === 1 }))
    .filter((piece) => piece.text !== '');
}
