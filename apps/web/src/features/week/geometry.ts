// Where things stand on the board: minutes of the firm's wall clock as shares of a day's width, people as rows of one height.
import { DateTime } from 'luxon';
import type { Week } from '@backsight/contract/schedule';

export type Person = Week['people'][number];
export type WeekDay = Person['days'][number];
export type Visit = WeekDay['visits'][number];
export type Leg = WeekDay['legs'][number];

/** Hours that every day shows, in minutes after midnight. */
export type Frame = { from: number; until: number };
export type Span = { start: number; end: number };
/** `back`: a mark wider than its visit reaches back before it, because the next one follows close. */
export type Block = Span & { visit: Visit; tag: string; back: boolean };
export type Drive = Span & { leg: Leg };
export type Away = Span & { state: 'asked' | 'approved' };
/** One day of one person, drawn. */
export type Strip = { day: WeekDay; blocks: Block[]; drives: Drive[]; away: Away[] };
export type Row = { person: Person; strips: Strip[] };
/** Joins the two of a pair: on day `at` (index), at a minute, from one row down to another. */
export type Tie = { visitId: string; at: number; minute: number; top: number; bottom: number };
/** `frames`: the hours that each day shows. */
export type Board = { frames: Frame[]; days: string[]; rows: Row[]; ties: Tie[]; zone: string };

/** Pixels of a row, of the column of names and, at least, of a visit; a step of a move in minutes. */
export const ROW = 58;
export const NAME = 172;
export const LEAST = 38;
export const STEP = 15;
const DAY = 1440;
const WORKDAY: Frame = { from: 480, until: 1020 };

const offsets = new Map<string, number>();
/** Minutes that the zone's clock is ahead of UTC at noon of the day. */
function offsetOf(day: string, zone: string): number {
  const key = `${day} ${zone}`;
  const known = offsets.get(key) ?? DateTime.fromISO(`${day}T12:00`, { zone }).offset;
  offsets.set(key, known);
  return known;
}

/** Minutes of an instant after midnight of the day: below 0 on the day before, from 1440 on the day after. */
export const minuteOf = (iso: string, day: string, zone: string): number =>
  Math.round((Date.parse(iso) - Date.parse(`${day}T00:00Z`)) / 60_000) + offsetOf(day, zone);

/** The instant of a wall-clock minute of a day. */
export const instantAt = (day: string, minute: number, zone: string): string =>
  new Date(Date.parse(`${day}T00:00Z`) + (minute - offsetOf(day, zone)) * 60_000).toISOString();

const clamp = (value: number, least: number, most: number): number => Math.min(Math.max(value, least), most);
const within = (span: Span): Span => ({ start: clamp(span.start, 0, DAY), end: clamp(span.end, 0, DAY) });

/** Minutes of a drive before the visit that it leads to, and of the drive home after the last. */
function drivesOf(day: WeekDay, blocks: readonly Block[]): Drive[] {
  return day.legs.flatMap((leg) => {
    const to = blocks.find(({ visit }) => visit.id === leg.to);
    const from = blocks.find(({ visit }) => visit.id === leg.from);
    if (leg.minutes === 0 || (!to && !from)) return [];
    return [to ? { leg, start: to.start - leg.minutes, end: to.start } : { leg, start: from!.end, end: from!.end + leg.minutes }];
  });
}

/** Two visits that begin closer together than this, in minutes, may be drawn over each other. */
const CLOSE = 150;

/** Whether there is more room before a visit than after it, where the next one is close. */
function reachesBack(spans: readonly Span[], at: number): boolean {
  const [before, own, next] = [spans[at - 1], spans[at]!, spans[at + 1]];
  const after = next ? next.start - own.start : DAY;
  return after < CLOSE && own.end - (before?.end ?? 0) > after;
}

function stripOf(day: WeekDay, zone: string, tags: ReadonlyMap<string, string>): Strip {
  const span = ({ startsAt, endsAt }: { startsAt: string; endsAt: string }): Span =>
    within({ start: minuteOf(startsAt, day.day, zone), end: minuteOf(endsAt, day.day, zone) });
  const spans = day.visits.map(span);
  const blocks = day.visits.map((visit, at) => ({ visit, tag: tags.get(visit.id) ?? '', ...spans[at]!, back: reachesBack(spans, at) }));
  return { day, blocks, drives: drivesOf(day, blocks), away: day.absent.map((one) => ({ state: one.state, ...span(one) })) };
}

/** A, B ... Z, AA: the same on both rows of a pair, anew on each day in the order of the starts. */
export function tagsOf(visits: readonly Pick<Visit, 'id' | 'startsAt'>[]): Map<string, string> {
  const once = [...new Map(visits.map((one) => [one.id, one])).values()];
  once.sort((a, b) => (a.startsAt + a.id < b.startsAt + b.id ? -1 : 1));
  const letter = (n: number): string => (n < 26 ? '' : letter(Math.floor(n / 26) - 1)) + String.fromCharCode(65 + (n % 26));
  return new Map(once.map(({ id }, n) => [id, letter(n)]));
}

/** Whole hours that hold every working hour, visit and drive of one day; null where there are none. */
function spanOf(rows: readonly Row[], at: number): Frame | null {
  const spans = rows.flatMap(({ strips }) => {
    const { day, blocks, drives } = strips[at]!;
    return [...(day.hours as Span[]), ...blocks, ...drives];
  });
  if (spans.length === 0) return null;
  const from = Math.min(...spans.map(({ start }) => start));
  const until = Math.max(...spans.map(({ end }) => end));
  return { from: clamp(Math.floor(from / 60) * 60, 0, DAY - 60), until: clamp(Math.ceil(until / 60) * 60, 60, DAY) };
}

const middle = (numbers: readonly number[]): number => numbers.toSorted((a, b) => a - b)[Math.floor((numbers.length - 1) / 2)]!;

/** The usual hours of these days, the same for each of them; a day with an earlier or later visit shows more, and does not squeeze the others. */
export function framesOf(rows: readonly Row[], days: number): Frame[] {
  const own = Array.from({ length: days }, (_, at) => spanOf(rows, at));
  const there = own.filter((frame) => frame !== null);
  const usual =
    there.length === 0 ? WORKDAY : { from: middle(there.map(({ from }) => from)), until: middle(there.map(({ until }) => until)) };
  return own.map((frame) => (frame ? { from: Math.min(frame.from, usual.from), until: Math.max(frame.until, usual.until) } : usual));
}

/** A line for each pair of which both have a row. */
function tiesOf(rows: readonly Row[], days: number): Tie[] {
  const ties: Tie[] = [];
  for (let at = 0; at < days; at++) {
    const seen = new Map<string, { row: number; start: number }>();
    rows.forEach(({ strips }, row) => {
      for (const { visit, start } of strips[at]!.blocks) {
        if (visit.place === 'observer') continue;
        const other = seen.get(visit.id);
        if (other) ties.push({ visitId: visit.id, at, minute: start, top: other.row, bottom: row });
        else seen.set(visit.id, { row, start });
      }
    });
  }
  return ties;
}

/** The board of the given days of a week; `order` puts people into their rows. */
export function boardOf(week: Week, days: readonly string[], order: (people: readonly Person[]) => readonly Person[]): Board {
  const own = (person: Person): WeekDay[] => person.days.filter(({ day }) => days.includes(day));
  const tags = new Map(days.flatMap((day) => [...tagsOf(week.people.flatMap((p) => p.days.find((one) => one.day === day)?.visits ?? []))]));
  const rows = order(week.people).map((person) => ({ person, strips: own(person).map((day) => stripOf(day, week.zone, tags)) }));
  return { frames: framesOf(rows, days.length), days: [...days], rows, ties: tiesOf(rows, days.length), zone: week.zone };
}

/** Those who go together one below the other, in the order of their first starts; who has no visit at the end, by name. */
export function pairsTogether(day: string): (people: readonly Person[]) => readonly Person[] {
  const first = (person: Person): Visit | undefined => person.days.find((one) => one.day === day)?.visits[0];
  const key = (person: Person): string => {
    const visit = first(person);
    return visit ? `${visit.startsAt} ${visit.id} ${visit.place}` : `~${person.name}`;
  };
  return (people) => [...people].sort((a, b) => (key(a) < key(b) ? -1 : 1));
}

/** Share of a day's width at which a minute stands; 0 and 1 are the edges of the frame. */
export const shareOf = ({ from, until }: Frame, minute: number): number => clamp((minute - from) / (until - from), 0, 1);

export const percent = (share: number): string => `${Math.round(share * 1e5) / 1e3}%`;

/** A span within its day, in percent. */
export function placeOf(frame: Frame, { start, end }: Span): { insetInlineStart: string; width: string } {
  const left = shareOf(frame, start);
  return { insetInlineStart: percent(left), width: percent(shareOf(frame, end) - left) };
}

/** The same for a visit, whose mark is never less than `--least` wide and stays within its day. */
export function markOf(frame: Frame, { start, end, back }: Span & { back: boolean }): ReturnType<typeof placeOf> {
  const place = placeOf(frame, { start, end });
  const from = back ? `${percent(shareOf(frame, end))} - var(--least)` : '100% - var(--least)';
  return { ...place, insetInlineStart: `max(0px, min(${place.insetInlineStart}, ${from}))` };
}

/** A span of day `at` (index) among all days, in percent of the width of all of them. */
export function placeAmong({ frames, days }: Pick<Board, 'frames' | 'days'>, at: number, { start, end }: Span) {
  const frame = frames[at]!;
  const left = (at + shareOf(frame, start)) / days.length;
  return { insetInlineStart: percent(left), width: percent((at + shareOf(frame, end)) / days.length - left) };
}

/** What lies under a point of the rows, in pixels from their start and top, names aside; the minute as it is, not in steps. */
export function under(
  board: Board,
  { x, y, width }: { x: number; y: number; width: number },
): { day: string; minute: number; row: number } {
  const { frames, days, rows } = board;
  const along = clamp((x / width) * days.length, 0, days.length - 0.0001);
  const at = Math.floor(along);
  const frame = frames[at]!;
  return {
    day: days[at]!,
    minute: frame.from + (along - at) * (frame.until - frame.from),
    row: clamp(Math.floor(y / ROW), 0, rows.length - 1),
  };
}

export const inSteps = (minute: number): number => clamp(Math.round(minute / STEP) * STEP, 0, DAY - STEP);
