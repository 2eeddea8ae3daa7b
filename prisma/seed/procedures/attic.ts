// Attic and insulation.
import type { Procedure } from '@backsight/domain/procedures/step';
import { choice, CONFIRM, duty, EXTRA, has, irc, step, trade } from './shorthand.ts';

const ATTIC_FOUND = has('attic');

export const ATTIC: Procedure = {
  key: 'attic',
  title: 'Attic and insulation',
  system: 'attic',
  steps: [
    step({
      key: 'attic-safe-to-enter',
      title: 'Attic: safe to enter?',
      applies: ATTIC_FOUND,
      kit: ['ladder', 'flashlight', 'coveralls_respirator'],
      instruction:
        'Lay a cloth under the hatch and set the ladder; the partner holds it and stays below. From the hatch look for a floor or framing that ' +
        'can be stepped on, for wiring, nests and loose vermiculite or old pipe wrap. Agree the time to be back.',
      why: 'A foot through the ceiling costs the house; dust, wiring and a fall cost the inspector.',
      caution:
        'Step on framing only. Stay at the hatch if insulation hides it, if wiring is open or old, if insulation may hold asbestos, or if it is too hot. ' +
        'Never alone in the house.',
      evidence: choice({ entered: 'entered', hatch: 'seen from the hatch', sealed: 'no access, or sealed' }),
      basis: EXTRA,
      minutes: 2,
      references: [irc('R807.1: opening 22 by 30 in'), trade('entering attics')],
    }),
    step({
      key: 'attic-insulation',
      title: 'Attic insulation: kind and depth',
      applies: ATTIC_FOUND,
      after: ['attic-safe-to-enter'],
      kit: ['flashlight', 'camera'],
      instruction:
        'Name the kind in the remarks. Measure the depth at a place of ordinary depth; photograph the rule in it. Note bare places and hatches without cover. Do not move it.',
      why: 'Thin insulation over the eaves melts snow and makes ice dams.',
      evidence: { kind: 'reading', unit: 'in', expectedFrom: 10, expectedTo: 24, hint: 'a hint only: older houses were built with less' },
      basis: duty('SOP-178'),
      minutes: 2,
      references: [trade('measuring depth with a rule')],
    }),
    step({
      key: 'attic-ventilation',
      title: 'Attic ventilation',
      applies: ATTIC_FOUND,
      after: ['attic-safe-to-enter'],
      kit: ['flashlight'],
      instruction:
        'Find the low and the high openings and look from inside whether daylight comes through and insulation blocks the eaves.',
      why: 'An attic without air from low to high grows frost in January and mold in March.',
      evidence: choice({
        low_high: 'low and high openings open',
        blocked: 'openings blocked',
        one: 'only low or only high',
        none: 'none found',
      }),
      basis: duty('SOP-179'),
      minutes: 1,
      references: [irc('R806.2: 1/150, or 1/300 with high and low openings')],
    }),
    step({
      key: 'roof-underside',
      title: 'Underside of the roof',
      applies: ATTIC_FOUND,
      after: ['attic-safe-to-enter'],
      kit: ['flashlight', 'moisture_meter', 'camera'],
      instruction:
        'Light the sheathing at valleys, chimney, pipes and eaves. Note stains, rusty nail tips, dark patches, frost and daylight. Read stains ' +
        'within reach with the meter. Say "mold-like growth", never the kind.',
      why: 'From inside a leak shows years before the ceiling does.',
      evidence: choice({
        none: 'no signs seen',
        dry: 'stains, dry today',
        wet: 'damp or wet today',
        condensation: 'frost or condensation signs',
      }),
      basis: duty('SOP-125'),
      minutes: 3,
    }),
    step({
      key: 'attic-bath-fan-duct',
      title: 'Bath fan duct in the attic',
      applies: ATTIC_FOUND,
      after: ['attic-safe-to-enter'],
      kit: ['flashlight'],
      instruction: 'Find the duct of each bath fan and look whether it is attached at the fan.',
      why: 'A loose duct blows shower steam into the attic.',
      evidence: CONFIRM,
      basis: duty('SOP-180'),
      minutes: 1,
    }),
  ],
};
