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

/** What the data say of one place, worked out once: a search asks about the same places again and again. */
type Known = {
  key: number;
  /** Answers of the road service for drives that begin here, by the key of their end. */
  row: ReadonlyMap<number, number> | undefined;
  /** Factors of drives from this place's town, by the town of their end. */
  town: string;
  factors: ReadonlyMap<string, number> | undefined;
  /** By rule: whether the place lies in its first and in its second area. */
  inA: boolean[];
  inB: boolean[];
};

function rowsOf(cells: TravelData['cells']): Map<number, Map<number, number>> {
  const rows = new Map<number, Map<number, number>>();
  for (const [from, to, seconds] of cells) {
    let row = rows.get(from);
    if (!row) rows.set(from, (row = new Map()));
    row.set(to, seconds);
  }
  return rows;
}

function factorsByTown(factors: TravelData['factors']): Map<string, Map<string, number>> {
  const byTown = new Map<string, Map<string, number>>();
  const put = (from: string, to: string, factor: number) =>
    byTown.set(from, (byTown.get(from) ?? new Map<string, number>()).set(to, factor));
  for (const { a, b, factor } of factors) {
    put(a, b, factor);
    put(b, a, factor);
  }
  return byTown;
}

function knownOf({ cells, factors, towns, rules }: TravelData): (place: Place) => Known {
  const rows = rowsOf(cells);
  const byTown = factorsByTown(factors);
  const known = new Map<Place, Known>();
  return (place) => {
    let one = known.get(place);
    if (!one) {
      const key = placeKey(place);
      const town = byTown.size === 0 ? '' : townOf(place, towns);
      const inA = rules.map((rule) => isIn(place, rule.a));
      const inB = rules.map((rule) => rule.kind === 'between' && isIn(place, rule.b));
      known.set(place, (one = { key, row: rows.get(key), town, factors: byTown.get(town), inA, inB }));
    }
    return one;
  };
}

/** Minutes said by hand for a drive, by the first rule that fits. */
function saidMinutes(rules: readonly TravelRule[], from: Known, to: Known): Minute | null {
  for (const [at, rule] of rules.entries())
    if (rule.kind === 'between' && ((from.inA[at] && to.inB[at]) || (from.inB[at] && to.inA[at]))) return rule.minutes;
  return null;
}

/** How many times as long a drive takes because of where it begins or ends, by the first rule that fits. */
function saidTimes(rules: readonly TravelRule[], from: Known, to: Known): number | null {
  for (const [at, rule] of rules.entries()) if (rule.kind === 'within' && (from.inA[at] || to.inA[at])) return 1 + rule.percent / 100;
  return null;
}

/** `exact`: minutes, not rounded. */
type Drive = { exact: number; source: TravelSource };
const NONE: Drive = { exact: 0, source: 'estimate' };

function driveOf(data: TravelData): (from: Place, to: Place) => Drive {
  const speeds = data.speeds ?? STANDARD_SPEEDS;
  const { rules } = data;
  const known = knownOf(data);
  return (a, b) => {
    const km = greatCircleKm(a, b);
    if (km < SAME_PLACE_KM) return NONE;
    const from = known(a);
    const to = known(b);
    const said = saidMinutes(rules, from, to);
    if (said !== null) return { exact: said, source: 'manual' };
    const seconds = from.row?.get(to.key);
    const times = saidTimes(rules, from, to);
    const road = seconds === undefined ? roadMinutes(km, speeds) * (from.factors?.get(to.town) ?? 1) : seconds / 60;
    const source = times !== null ? 'manual' : seconds === undefined ? 'estimate' : 'engine';
    return { exact: PARKING_MINUTES + road * (times ?? 1), source };
  };
}

/** Nothing known but distances. */
const NOTHING: TravelData = { speeds: null, factors: [], towns: [], rules: [], service: false, cells: [] };

/** The driving times of a firm. Without data, the estimate by distance alone. */
export function travelOf(data: TravelData = NOTHING): Travel {
  const drive = driveOf(data);
  return { minutes: (from, to) => Math.ceil(drive(from, to).exact), sourceOf: (from, to) => drive(from, to).source };
}

/** Minutes of a drive before they are rounded up, for sums in which the rounding of many short drives would hide a difference. */
export function exactMinutes(data: TravelData = NOTHING): (from: Place, to: Place) => number {
  const drive = driveOf(data);
  return (from, to) => drive(from, to).exact;
}

/** The same drives at `percent` of their speeds. Parking takes as long as before; what a person said by hand is scaled whole. */
export function atSpeed(data: TravelData | undefined, percent: number): TravelData {
  const { speeds, cells, rules, ...rest } = data ?? NOTHING;
  const times = 100 / percent;
  return {
    ...rest,
    speeds: (speeds ?? STANDARD_SPEEDS).map((kmh) => kmh / times),
    cells: cells.map(([from, to, seconds]) => [from, to, seconds * times]),
    rules: rules.map((rule) => (rule.kind === 'between' ? { ...rule, minutes: Math.ceil(rule.minutes * times) } : rule)),
  };
}

/** The least certain source among some drives, null without any: one estimate makes the whole an estimate. */
export function leastCertain(sources: readonly TravelSource[]): TravelSource | null {
  return sources.includes('estimate') ? 'estimate' : sources.includes('engine') ? 'engine' : (sources[0] ?? null);
}
