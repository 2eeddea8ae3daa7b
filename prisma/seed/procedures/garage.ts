// Garage: door operator and reversal, photo eyes, separation from the house.
import type { Procedure } from '@backsight/domain/procedures/step';
import { ANY_GARAGE, cfr, choice, duty, EXTRA, has, irc, step } from './shorthand.ts';

export const GARAGE: Procedure = {
  key: 'garage',
  title: 'Garage',
  system: 'garage',
  steps: [
    step({
      key: 'garage-door-look',
      title: 'Garage door: springs, cables, track',
      per: 'garage',
      applies: ANY_GARAGE,
      sequence: 'garage-door',
      kit: ['flashlight'],
      instruction:
        "With the door down look at springs, cables, rollers, hinges and the operator's hanger before anything moves. See that cars, people and pets are clear.",
      why: 'A door weighs as much as a person and hangs on two cables.',
      caution: 'A broken spring, frayed cable or bent track: do not run the door at all. Touch no spring or cable.',
      evidence: choice({ run: 'fit to run', do_not_run: 'not run: not safe', locked: 'not run: locked or blocked', none: 'no operator' }),
      basis: duty('SOP-135'),
      minutes: 1,
    }),
    step({
      key: 'garage-door-photo-eye',
      title: 'Garage door: photo eyes',
      per: 'garage',
      applies: ANY_GARAGE,
      sequence: 'garage-door',
      after: ['garage-door-look'],
      instruction:
        'Start the door down by the wall button and pass a broom through the beam. It must go up again. Measure how high the eyes stand.',
      why: 'The eyes are what keeps a child from under the door.',
      caution: 'Use a broom, never a foot or arm. Stay at the button, in sight of the whole door.',
      evidence: choice({ reverses: 'goes up again', goes_on: 'goes on closing', no_eyes: 'no photo eyes' }),
      basis: EXTRA,
      minutes: 1,
      references: [cfr('16 CFR 1211: since 1 January 1993')],
    }),
    step({
      key: 'garage-door-reversal',
      title: 'Garage door: reverses or stops on resistance',
      per: 'garage',
      applies: ANY_GARAGE,
      sequence: 'garage-door',
      after: ['garage-door-photo-eye'],
      instruction:
        'With the door closing, give it reasonable resistance at waist height with open hands on the bottom edge, standing aside; let go at once if it does not answer. ' +
        'Then close it as it was found.',
      why: 'The rule asks whether it reverses or stops; a door that does not can crush.',
      caution: 'Not on a door that looked weak, bent or without a strut: it may buckle. Never stand under it. Never force it.',
      evidence: choice({ reverses: 'reverses or stops', no_reverse: 'does not', not_tried: 'not tried: door would be damaged' }),
      basis: duty('SOP-131', 'SOP-135'),
      minutes: 1,
    }),
    step({
      key: 'garage-separation',
      title: 'Wall, ceiling and door between garage and house',
      applies: has('attached_garage'),
      kit: ['flashlight', 'camera'],
      instruction:
        'Look for open holes, missing board, hatches without cover, ducts that open into the garage, and at the door: solid, closes and latches, no pet door.',
      why: 'It gives a family the minutes it needs when a car burns, and keeps exhaust out of the house.',
      evidence: choice({
        whole: 'whole as seen',
        open: 'openings or missing board',
        door: 'door not solid, or does not latch',
        several: 'several of these',
      }),
      basis: duty('SOP-165'),
      minutes: 2,
      references: [irc('R302.5 to R302.6: separation and door')],
    }),
    step({
      key: 'garage-floor-and-burners',
      title: 'Garage floor, and burners above it',
      per: 'garage',
      applies: ANY_GARAGE,
      kit: ['level'],
      instruction:
        'See that the floor falls to the door. Measure from the floor to the burner or switch of every heater, furnace, dryer and freezer that can spark: 18 in is the common rule unless its plate says otherwise. Look for a post in front of what a car could hit.',
      why: 'Gasoline vapor lies on the floor and waits for a spark.',
      evidence: choice({
        none: 'nothing that sparks stands low',
        low: 'burner or switch below 18 in',
        open: 'nothing keeps a car from it',
        several: 'several of these',
      }),
      basis: EXTRA,
      minutes: 0.5,
      references: [irc('M1307.3: 18 in above a garage floor (secondary copy)', 'found')],
    }),
  ],
};
