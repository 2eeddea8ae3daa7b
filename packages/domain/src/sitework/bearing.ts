// Which systems of the house an act of the pair bears on, for whoever later asks what was done there besides the steps.
import type { Change, KnownAct } from './act.ts';
import { hazardPlaceOf, type PlacedStep } from './hazards.ts';
import { inOrder } from './inOrder.ts';

/** By the names that the starter's procedure book gives systems; what may be anywhere bears on the whole visit. */
const CHANGED_IN: Partial<Record<Change, readonly string[]>> = {
  thermostat: ['heating', 'cooling'],
  valve: ['plumbing', 'water_heater', 'heating'],
  hatch: ['attic', 'structure'],
  irrigation: ['lawn_sprinklers'],
  appliance: ['appliances'],
};

export type Bearing = {
  known: KnownAct;
  /** Null: the whole visit. */
  systems: readonly string[] | null;
};

const systemsOf = (steps: readonly PlacedStep[], fits: (step: PlacedStep) => boolean): string[] => [
  ...new Set(steps.filter(fits).map(({ system }) => system)),
];

type Parts = { acts: readonly KnownAct[]; steps: readonly PlacedStep[] };

/** Of something named by an earlier act: a change, somebody inside, a receptacle or a device. */
function ofEarlier(ref: string, parts: Parts): readonly string[] | null {
  const { acts, steps } = parts;
  const earlier = acts.find(({ id, act }) => id === ref || (act.do === 'outlet' && act.outlet === ref));
  if (earlier) return systemsFor(earlier, parts);
  const ofDevice = systemsOf(steps, ({ itemId }) => itemId === ref);
  return ofDevice.length > 0 ? ofDevice : null;
}

function systemsFor({ act }: KnownAct, parts: Parts): readonly string[] | null {
  const { steps } = parts;
  if ('device' in act) return systemsOf(steps, ({ itemId }) => itemId === act.device);
  switch (act.do) {
    case 'changed':
      return CHANGED_IN[act.thing] ?? null;
    case 'hazard_look':
    case 'went_in':
      return systemsOf(steps, (step) => hazardPlaceOf(step) === act.place);
    case 'put_back':
    case 'came_out':
      return ofEarlier(act.of, parts);
    case 'told': {
      const each = act.of.map((ref) => ofEarlier(ref, parts));
      return each.some((systems) => systems === null) ? null : [...new Set(each.flatMap((systems) => systems ?? []))];
    }
    case 'settled':
      return systemsOf(steps, ({ stepKey }) => stepKey === act.stepKey);
    default:
      return null;
  }
}

/** Every act in its order, each with the systems that it bears on: door, conditions, danger, damage and sign-off on all of them. */
export const bearings = (acts: readonly KnownAct[], steps: readonly PlacedStep[]): Bearing[] =>
  inOrder(acts).map((known) => ({ known, systems: systemsFor(known, { acts, steps }) }));
