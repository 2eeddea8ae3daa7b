// The firm's procedure book in its first revision, and how a later revision takes the place of some of its steps.
import type { Procedure, Step } from '@backsight/domain/procedures/step';
import { INFRARED_SCAN, LAWN_SPRINKLERS, OUTBUILDINGS, RADON_MEASUREMENT, WATER_SAMPLES_AND_PROVIDERS, WOOD_INSECTS } from './addOns.ts';
import { ALARMS } from './alarms.ts';
import { APPLIANCES } from './appliances.ts';
import { ARRIVAL } from './arrival.ts';
import { ATTIC } from './attic.ts';
import { COOLING } from './cooling.ts';
import { ELECTRICAL } from './electrical.ts';
import { FIREPLACE } from './fireplace.ts';
import { GARAGE } from './garage.ts';
import { HEATING } from './heating.ts';
import { INTERIOR } from './interior.ts';
import { LEAVING } from './leaving.ts';
import { MEETS_ELSEWHERE } from './otherStates.ts';
import { PLUMBING } from './plumbing.ts';
import { POOL_AND_SPA } from './poolSpa.ts';
import { ROOF } from './roof.ts';
import { SITE_EXTERIOR } from './siteExterior.ts';
import { STRUCTURE } from './structure.ts';
import { WATER_HEATER } from './waterHeater.ts';

/** In the order in which a pair usually goes through a house. */
const AS_WRITTEN: readonly Procedure[] = [
  ARRIVAL,
  SITE_EXTERIOR,
  ROOF,
  STRUCTURE,
  ATTIC,
  ELECTRICAL,
  PLUMBING,
  WATER_HEATER,
  HEATING,
  COOLING,
  INTERIOR,
  APPLIANCES,
  GARAGE,
  FIREPLACE,
  ALARMS,
  RADON_MEASUREMENT,
  WOOD_INSECTS,
  INFRARED_SCAN,
  POOL_AND_SPA,
  LAWN_SPRINKLERS,
  OUTBUILDINGS,
  WATER_SAMPLES_AND_PROVIDERS,
  LEAVING,
];

/** The step with the rows of other states that it meets. */
const withOtherStates = (step: Step): Step => {
  const rows = Object.keys(MEETS_ELSEWHERE).filter((row) => MEETS_ELSEWHERE[row]!.includes(step.key));
  return rows.length === 0 ? step : { ...step, alsoMeets: rows };
};

export const PROCEDURES: readonly Procedure[] = AS_WRITTEN.map((procedure) => ({
  ...procedure,
  steps: procedure.steps.map(withOtherStates),
}));

/**
 * The procedure with those of a lesson in place of the steps that they replace: those of the same key, and those that a step of the lesson is derived from.
 * All of them stand where the first replaced step stood; at the end if none is replaced.
 */
export const revised = (procedure: Procedure, lesson: readonly Step[]): Procedure => {
  const changed = lesson.map(withOtherStates);
  const replaced = new Set(changed.flatMap((step) => (step.derivedFrom === undefined ? [step.key] : [step.key, step.derivedFrom])));
  const found = procedure.steps.findIndex((step) => replaced.has(step.key));
  const place = found === -1 ? procedure.steps.length : found;
  const rest = (steps: readonly Step[]): Step[] => steps.filter((step) => !replaced.has(step.key));
  return { ...procedure, steps: [...rest(procedure.steps.slice(0, place)), ...changed, ...rest(procedure.steps.slice(place))] };
};
