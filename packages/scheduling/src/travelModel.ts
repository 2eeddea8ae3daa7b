// The one source of driving times of a firm: what a person said, else what the road service answered, else the estimate.
import type { Minute } from './time.ts';
import { greatCircleKm, PARKING_MINUTES, roadMinutes, SAME_PLACE_KM, STANDARD_SPEEDS } from './travel.ts';
import type { Place, Travel, TravelSource } from './travel.ts';

export type Area = Place & { radiusKm: number };
export type NamedPlace = Place & { name: string };

/** Said by hand: the minutes between two areas, either way; or how much longer a drive takes that begins or ends in an area. */
export type TravelRule = { kind: 'between'; a: Area; b: Area; minutes: Minute } | { kind: 'within'; a: Area; percent: number };

/** Real minutes over estimated minutes between two towns, in either direction: a bridge, a road around the shore. */
export type PairFactor = { a: string; b: string; factor: number };

/** Plain data from which driving times come; it may be sent to another thread. */
export type TravelData = {
  /** km/h for each band of the estimate, fitted from recorded drives; null: the standard ones. */
  speeds: readonly number[] | null;
  factors: readonly PairFactor[];
  /** Towns by whose name the factors go: a place belongs to the nearest. */
  towns: readonly NamedPlace[];
  /** The first that fits counts. */
  rules: readonly TravelRule[];
  /** Whether a road service is set up; its answers are in `cells`, seconds of driving by the keys of the places. */
  service: boolean;
  cells: readonly (readonly [from: number, to: number, seconds: number])[];
};

const STEPS = 10_000;
const LON_SPAN = 360 * STEPS + 1;

/** One whole number for a place rounded to 4 decimals of a degree (about 10 m). SQL computes the same: floor(x * 10000 + 0.5). */
export const placeKey = ({ lat, lon }: Place): number =>
  (Math.floor(lat * STEPS + 0.5) + 90 * STEPS) * LON_SPAN + (Math.floor(lon * STEPS + 0.5) + 180 * STEPS);

/** The rounded place that a key stands for. */
export function placeOfKey(key: number): Place {
  const lat = Math.floor(key / LON_SPAN);
  return { lat: lat / STEPS - 90, lon: (key - lat * LON_SPAN) / STEPS - 180 };
}

const isIn = (place: Place, area: Area): boolean => greatCircleKm(place, area) <= area.radiusKm;

/** Name of the nearest town, '' when the firm has none. */
export function townOf(place: Place, towns: readonly NamedPlace[]): string {
  let best = '';
  let least = Infinity;
  for (const town of towns) {
    const km = greatCircleKm(place, town);
    if (km < least) [best, least] = [town.name, km];
  }
  return best;
}

/** Key of two towns, the same in both directions. */
export const pairKey = (a: string, b: string): string => (a < b ? `${a}|${b}` : `${b}|${a}`);

/** What is said by hand for a drive: fixed minutes, or how many times as long. */
type Said = { minutes: Minute | null; times: number | null };
const UNSAID: Said = { minutes: null, times: null };

function saidOf(rules: readonly TravelRule[]): (from: Place, to: Place) => Said {
  if (rules.length === 0) return () => UNSAID;
  const areas = remembered((place) => rules.map((rule) => ({ a: isIn(place, rule.a), b: rule.kind === 'between' && isIn(place, rule.b) })));
  return (from, to) => {
    const [starts, ends] = [areas(from), areas(to)];
    const fixed = rules.findIndex((_, at) => (starts[at]!.a && ends[at]!.b) || (starts[at]!.b && ends[at]!.a));
    const slow = rules.find((rule, at) => rule.kind === 'within' && (starts[at]!.a || ends[at]!.a));
    const rule = rules[fixed];
    return { minutes: rule?.kind === 'between' ? rule.minutes : null, times: slow?.kind === 'within' ? 1 + slow.percent / 100 : null };
  };
}

type Drive = { minutes: Minute; source: TravelSource };
const NONE: Drive = { minutes: 0, source: 'estimate' };

function driveOf(data: TravelData): (from: Place, to: Place) => Drive {
  const speeds = data.speeds ?? STANDARD_SPEEDS;
  const [saidFor, seconds, factorOf] = [saidOf(data.rules), cellsOf(data.cells), factorsOf(data)];
  return (from, to) => {
    const km = greatCircleKm(from, to);
    if (km < SAME_PLACE_KM) return NONE;
    const said = saidFor(from, to);
    if (said.minutes !== null) return { minutes: said.minutes, source: 'manual' };
    const known = seconds(from, to);
    const road = known === undefined ? roadMinutes(km, speeds) * factorOf(from, to) : known / 60;
    const source = said.times !== null ? 'manual' : known === undefined ? 'estimate' : 'engine';
    return { minutes: Math.ceil(PARKING_MINUTES + road * (said.times ?? 1)), source };
  };
}

/** Looks cells up by place: the keys of a place are worked out once. */
function cellsOf(cells: TravelData['cells']): (from: Place, to: Place) => number | undefined {
  const rows = new Map<number, Map<number, number>>();
  for (const [from, to, seconds] of cells) {
    let row = rows.get(from);
    if (!row) rows.set(from, (row = new Map()));
    row.set(to, seconds);
  }
  if (rows.size === 0) return () => undefined;
  const keyOf = remembered(placeKey);
  return (from, to) => rows.get(keyOf(from))?.get(keyOf(to));
}

function remembered<T>(ask: (place: Place) => T): (place: Place) => T {
  const known = new WeakMap<Place, T>();
  return (place) => {
    let value = known.get(place);
    if (value === undefined) known.set(place, (value = ask(place)));
    return value;
  };
}

function factorsOf({ factors, towns }: TravelData): (from: Place, to: Place) => number {
  if (factors.length === 0) return () => 1;
  const known = new Map(factors.map(({ a, b, factor }) => [pairKey(a, b), factor]));
  const town = remembered((place) => townOf(place, towns));
  return (from, to) => known.get(pairKey(town(from), town(to))) ?? 1;
}

/** Nothing known but distances. */
const NOTHING: TravelData = { speeds: null, factors: [], towns: [], rules: [], service: false, cells: [] };

/** The driving times of a firm. Without data, the estimate by distance alone. */
export function travelOf(data: TravelData = NOTHING): Travel {
  const drive = driveOf(data);
  return { minutes: (from, to) => drive(from, to).minutes, sourceOf: (from, to) => drive(from, to).source };
}

/** The least certain source among some drives, null without any: one estimate makes the whole an estimate. */
export function leastCertain(sources: readonly TravelSource[]): TravelSource | null {
  return sources.includes('estimate') ? 'estimate' : sources.includes('engine') ? 'engine' : (sources[0] ?? null);
}
