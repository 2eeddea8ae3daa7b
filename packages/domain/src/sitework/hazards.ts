// Before steps in a crawl space, attic, on a roof or at a panel: what stops everybody. A stop needs no further word.
// Common practice of the trade; where a published limit stands behind a line it is named there.
import { HAZARD_PLACES, type HazardPlace, type StepPlace } from '../shared/places.ts';
import type { KnownAct } from './act.ts';
import { inOrder } from './inOrder.ts';

/** Any one of them and nobody goes. */
export const STOPS = {
  crawl_space: {
    water_and_wiring: 'standing water, or wet soil with wiring',
    sewage: 'sewage',
    gas: 'gas smell, or the gas detector sounds',
    animals: 'animals',
    soil: 'loose or fallen soil, or a support that leans',
    nobody_outside: 'nobody at the hatch',
    too_tight: 'an opening or headroom too small to get out of fast',
  },
  attic: {
    no_floor: 'no safe footing: only joists, or nothing seen of them',
    wiring: 'bare or damaged wiring within reach',
    heat: 'too hot to stay',
    animals: 'animals, bats or wasps',
    insulation: 'insulation that may hold asbestos would be disturbed',
    nobody_below: 'nobody below',
  },
  roof: {
    wet: 'wet, icy, snow or frost',
    steep: 'steeper than about 6 in 12 to 8 in 12',
    brittle: 'tile, slate or a covering that breaks',
    ladder: 'no firm footing for the ladder, or the eave out of its reach',
    line: 'an overhead line within 10 ft (29 CFR 1910.333(c)(3))',
    wind: 'wind, storm or lightning',
    nobody_below: 'nobody below',
  },
  panel: {
    wet: 'wet floor or water in the panel',
    live: 'the enclosure is live, or the tester cannot be proven',
    hot: 'hot, scorched, buzzing or smelling',
    no_space: 'no room to stand clear of it',
    sealed: 'sealed, painted shut, or the cover would not come off level',
  },
} as const satisfies Record<HazardPlace, Record<string, string>>;

export const stopsOf = (place: HazardPlace): { key: string; label: string }[] =>
  Object.entries(STOPS[place]).map(([key, label]) => ({ key, label }));

export type PlacedStep = { place?: StepPlace | null; stepKey: string; system: string; per: string; itemId: string | null };

/** The place to be looked at first before a step is done; null where there is none. */
export const hazardPlaceOf = (step: PlacedStep): HazardPlace | null => {
  const { place } = step;
  return place === undefined || place === null ? bySystem(step) : place in HAZARD_PLACES ? (place as HazardPlace) : null;
};

/** Steps that do not say where they are done, as those from before steps said it: told by what they are done for and by their system. */
function bySystem(step: PlacedStep): HazardPlace | null {
  if (step.per === 'panel') return 'panel';
  if (step.stepKey.startsWith('crawl-space')) return 'crawl_space';
  if (step.system === 'attic') return 'attic';
  return step.system === 'roof' && step.stepKey !== 'snow-cover' ? 'roof' : null;
}

type Look = { stops: readonly string[]; at: string; by: string };

/** The newest look at a place, or at one panel of several; null while nobody has looked. */
export function lookAt(acts: readonly KnownAct[], place: HazardPlace, item: string | null): Look | null {
  const last = inOrder(acts).findLast(({ act }) => act.do === 'hazard_look' && act.place === place && act.item === item);
  return last?.act.do === 'hazard_look' ? { stops: last.act.stops, at: last.at, by: last.by } : null;
}

/** The look that a step waits for: at its panel, or at its place. */
export const lookFor = (step: PlacedStep): { place: HazardPlace; item: string | null } | null => {
  const place = hazardPlaceOf(step);
  return place && { place, item: place === 'panel' ? step.itemId : null };
};

/** Whether an act closes a step without a question: a stop at its place, or a danger to people, which ends all work in the house. */
export function closes(act: KnownAct['act'], step: PlacedStep): boolean {
  if (act.do === 'danger') return true;
  if (act.do !== 'hazard_look' || act.stops.length === 0) return false;
  const look = lookFor(step);
  return look !== null && look.place === act.place && look.item === act.item;
}

export const DANGER_ADVICE: Record<string, readonly string[]> = {
  gas: [
    'Leave now. Touch no switch, no phone inside.',
    'Tell everybody in the house to leave.',
    'From outside, away from the house: call 911 and the gas company.',
  ],
  carbon_monoxide: [
    'Everybody out into fresh air now.',
    'Call 911 from outside.',
    'Nobody goes back in until the fire department says so.',
  ],
  energized_metal: [
    'Do not touch it. Keep everybody away.',
    'Power off at the breaker only if you can reach it dry and safely. If not, leave and call.',
    'Somebody was shocked: call 911.',
  ],
  collapse: [
    'Leave now, by the way that is farthest from it.',
    'Tell everybody in the house to leave and stay out.',
    'Call 911 if anybody is under or near it.',
  ],
  other: ['Leave. Nobody asks why.', 'Tell everybody in the house.', 'Life in danger: call 911.'],
};
