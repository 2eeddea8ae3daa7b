// Second revision of the bath fan step: the duct is followed to its end, and the end is seen outside.
import type { Step } from '@backsight/domain/procedures/step';
import { choice, duty, EXTRA, has, irc, step, trade } from './shorthand.ts';

const SEQUENCE = 'bath-fan-duct';

/** Takes the place of the step `attic-bath-fan-duct` of the first revision, whose look at the fan end alone missed ducts that end in the attic. */
export const ATTIC_STEPS_REVISED: readonly Step[] = [
  step({
    key: 'bath-fan-duct-traced',
    derivedFrom: 'attic-bath-fan-duct',
    title: 'Bath fan duct followed to its end',
    place: 'attic',
    per: 'bathroom',
    applies: has('attic'),
    sequence: SEQUENCE,
    kit: ['flashlight', 'camera'],
    after: ['attic-safe-to-enter'],
    instruction:
      "Follow the duct of this bathroom's fan with eye and light from the fan to where it ends. Name the end. A duct that only points at a " +
      'vent or lies under the insulation is not followed: say so. Photograph the end, and the sheathing around it.',
    why: 'A duct that is tight at the fan may still end under the roof, where a winter of showers rots the sheathing.',
    caution: 'Step on framing only; do not crawl to the eave for a duct. "Not followed" is a good answer and is reported.',
    evidence: choice({
      roof_cap: 'ends at a roof cap',
      wall_cap: 'ends at a wall or gable cap',
      soffit: 'ends at the soffit',
      in_attic: 'ends in the attic',
      not_followed: 'could not be followed',
      no_fan: 'no fan in this bathroom',
    }),
    basis: duty('SOP-180'),
    minutes: 1,
    references: [irc('M1501.1: exhaust to the outdoors'), trade('bath fans that end in attics')],
  }),
  step({
    key: 'bath-fan-cap-outside',
    derivedFrom: 'attic-bath-fan-duct',
    title: 'Bath fan cap seen outside, flap moves',
    place: 'elsewhere',
    per: 'bathroom',
    applies: has('attic'),
    sequence: SEQUENCE,
    style: 'read_then_do',
    after: ['bath-fan-duct-traced'],
    instruction:
      'With this fan running, find its cap from the ground and see whether the flap moves or frost and steam show. Then turn the fan off ' +
      'as it was. Snow on the roof or a cap out of sight: record it so and offer a later look.',
    why: 'The two ends together prove the way; either alone does not.',
    evidence: choice({
      moves: 'cap seen, flap moves',
      still: 'cap seen, flap does not move',
      no_cap: 'no cap found',
      hidden: 'could not be seen',
    }),
    basis: EXTRA,
    minutes: 1,
    references: [trade('matching caps to fans')],
  }),
];
