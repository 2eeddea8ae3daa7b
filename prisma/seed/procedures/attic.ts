// Attic and insulation.
import type { Procedure } from '@backsight/domain/procedures/step';
import { at, choice, CONFIRM, duty, EXTRA, has, irc, step, trade } from './shorthand.ts';

const ATTIC_FOUND = has('attic');

export const ATTIC: Procedure = {
  key: 'attic',
  title: 'Attic and insulation',
  system: 'attic',
  steps: at('attic', [
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
      key: 'attic-old-insulation',
      title: 'Loose old insulation or pipe wrap that may hold asbestos',
      applies: { all: [ATTIC_FOUND, { fact: 'yearBuilt', compare: 'below', value: 1990 }] },
      after: ['attic-safe-to-enter'],
      instruction:
        'From the hatch look for shiny pebble-like grains (vermiculite) and gray corrugated wrap on pipes and ducts. If you see either, go no farther, close the hatch softly and say so to the occupant.',
      why: 'Some of it holds asbestos, and only a laboratory can say which.',
      caution: 'Do not touch, move or sample it. If you were in it, brush nothing off indoors; bag the coveralls.',
      evidence: choice({ none: 'none seen', grains: 'vermiculite-like grains', wrap: 'old pipe or duct wrap', several: 'both' }),
      basis: EXTRA,
      minutes: 1,
      references: [trade('suspect asbestos is left alone')],
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
      minutes: 2.5,
    }),
    step({
      key: 'roof-structure-from-attic',
      title: 'Roof framing and sheathing seen from the attic',
      applies: ATTIC_FOUND,
      style: 'do_then_confirm',
      after: ['attic-safe-to-enter'],
      kit: ['flashlight'],
      instruction:
        'Look along rafters or trusses: cut or notched members, splits, plates that have come away, sagging sheathing, missing collar ties or braces, and repairs that rest on nothing. State how it was seen.',
      why: 'One truss cut for a furnace or a hatch lets the roof move for years.',
      evidence: choice({
        sound: 'sound as seen',
        cut: 'cut, split or loose members',
        sag: 'sagging framing or sheathing',
        part: 'seen only in part',
      }),
      basis: EXTRA,
      minutes: 0.5,
      references: [trade('cut trusses go to a structural engineer')],
    }),
    step({
      key: 'attic-hatch-or-stair',
      title: 'Attic hatch or folding stair',
      applies: ATTIC_FOUND,
      style: 'do_then_confirm',
      after: ['attic-safe-to-enter'],
      instruction:
        'Look at what holds a folding stair (bolts, not drywall screws), its hinges and rails, a cut joist beside it, the cover above it and the seal around it.',
      why: 'The stair is used with both arms full, and the hole around it loses heat all winter.',
      evidence: CONFIRM,
      basis: EXTRA,
      minutes: 0.5,
      references: [trade('folding attic stairs')],
    }),
    step({
      key: 'chimney-in-attic',
      title: 'Chimney or flue where it passes the attic',
      applies: { all: [ATTIC_FOUND, has('chimney')] },
      after: ['attic-safe-to-enter'],
      kit: ['flashlight'],
      instruction:
        'Look at the bricks or the metal flue: wood against it, open gap to the floor below, stains below the flashing, joints that leak soot, an unused flue hole.',
      why: 'Wood against a flue chars for years before it burns.',
      evidence: choice({
        clear: 'clear of wood, sound as seen',
        touches: 'wood touches or gap open',
        soot: 'soot, stains or open joints',
        several: 'several of these',
        not_seen: 'could not be seen',
      }),
      basis: duty('SOP-124'),
      minutes: 1,
      references: [trade('clearance of flues')],
    }),
    step({
      key: 'attic-wall-between-units',
      title: 'Wall between units in the attic',
      applies: { all: [ATTIC_FOUND, { fact: 'kind', compare: 'isOneOf', value: ['two_to_four_units', 'condominium'] }] },
      after: ['attic-safe-to-enter'],
      kit: ['flashlight'],
      instruction:
        'Look whether the wall between the units goes up to the roof, and for holes around pipes, cables and doors cut through it.',
      why: 'Fire goes over a wall that ends at the ceiling.',
      evidence: choice({
        whole: 'goes to the roof, whole as seen',
        open: 'open or with holes',
        ends: 'ends at the ceiling',
        not_seen: 'could not be seen',
      }),
      basis: duty('SOP-165'),
      minutes: 1,
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
    step({
      key: 'attic-wiring-and-lights',
      title: 'Wiring and ceiling lights in the attic',
      applies: { all: [ATTIC_FOUND, { any: [{ fact: 'yearBuilt', compare: 'below', value: 1985 }] }] },
      after: ['attic-safe-to-enter'],
      kit: ['flashlight'],
      instruction:
        'From where you stand look for open boxes, splices outside boxes, cable across the walkway, lights buried in insulation and scorched wood beside them.',
      why: 'A buried light that was not made for it heats the wood around it every evening.',
      caution: 'Touch no cable and move no insulation: old covering cracks. Keep your head below the roofing nails.',
      evidence: choice({
        sound: 'sound as seen',
        open: 'open boxes or splices',
        buried: 'lights buried or scorch marks',
        several: 'several of these',
        not_seen: 'could not be seen',
      }),
      basis: EXTRA,
      minutes: 1,
      references: [trade('wiring in attics')],
    }),
  ]),
};
