// The firm's procedure book in its first revision, and how a later revision takes the place of some of its steps.
import type { Procedure, Step } from '@backsight/domain/procedures/step';
import { ALARMS } from './alarms.ts';
import { ARRIVAL } from './arrival.ts';
import { ATTIC } from './attic.ts';
import { COOLING } from './cooling.ts';
import { ELECTRICAL } from './electrical.ts';
import { FIREPLACE } from './fireplace.ts';
import { GARAGE } from './garage.ts';
import { HEATING } from './heating.ts';
import { INTERIOR } from './interior.ts';
import { LEAVING } from './leaving.ts';
import { PLUMBING } from './plumbing.ts';
import { ROOF } from './roof.ts';
import { SITE_EXTERIOR } from './siteExterior.ts';
import { STRUCTURE } from './structure.ts';
import { WATER_HEATER } from './waterHeater.ts';

/** In the order in which a pair usually goes through a house. */
export const PROCEDURES: readonly Procedure[] = [
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
  GARAGE,
  FIREPLACE,
  ALARMS,
  LEAVING,
];

/**
 * The procedure with `changed` in place of the steps that they replace: those of the same key, and those that a changed step is derived from.
 * All of `changed` stands where the first replaced step stood; at the end if none is replaced.
 */
export const revised = (procedure: Procedure, changed: readonly Step[]): Procedure => {
  const replaced = new Set(changed.flatMap((step) => (step.derivedFrom === undefined ? [step.key] : [step.key, step.derivedFrom])));
  const found = procedure.steps.findIndex((step) => replaced.has(step.key));
  const place = found === -1 ? procedure.steps.length : found;
  const rest = (steps: readonly Step[]): Step[] => steps.filter((step) => !replaced.has(step.key));
  return { ...procedure, steps: [...rest(procedure.steps.slice(0, place)), ...changed, ...rest(procedure.steps.slice(place))] };
};
