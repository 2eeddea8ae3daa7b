// Water heater: tank, vent, relief valve pipe, and hot water at the faucet.
import type { Procedure } from '@backsight/domain/procedures/step';
import { burns, choice, duty, EXTRA, irc, note, photo, step, trade } from './shorthand.ts';

export const WATER_HEATER: Procedure = {
  key: 'water-heater',
  title: 'Water heater',
  system: 'water_heater',
  steps: [
    step({
      key: 'water-heater-and-vent',
      title: 'Water heater, controls and vent',
      per: 'water_heater',
      kit: ['flashlight', 'camera'],
      instruction:
        'Look at tank, pan, pipes, burner door and vent: rust, scorching, slope, loose joints, distance to things that burn. ' +
        'A pilot that is out stays out and a heater found off stays off: reported, return visit offered.',
      why: 'A loose vent brings carbon monoxide into the house without a sound.',
      caution: 'Vent and tank pipes burn. Keep your face away from the burner door.',
      evidence: choice({ sound: 'sound as seen', leak: 'leak or rust', vent: 'vent loose, scorched or sloped back', off: 'off as found' }),
      basis: duty('SOP-140'),
      minutes: 1.75,
      references: [irc('M1307.3: burner 18 in above a garage floor (secondary copy)', 'found')],
    }),
    step({
      key: 'water-heater-data-plate',
      title: 'Data plate of the water heater',
      per: 'water_heater',
      kit: ['camera', 'flashlight'],
      instruction: 'Photograph the data plate so that model, serial number and capacity can be read. Move nothing that stands before it.',
      why: 'Age and rated figures are asked for years later, when nobody is at the house.',
      evidence: photo('the data plate, readable'),
      basis: EXTRA,
      minutes: 0.25,
      references: [trade('data plates photographed')],
    }),
    step({
      key: 'water-heater-plate-and-pan',
      title: 'Water heater: fuel, size, age, pan and cold valve',
      per: 'water_heater',
      kit: ['flashlight'],
      instruction:
        'Write down fuel, gallons or tankless, the year from the plate, and where it stands. Note a missing cold valve, and a missing pan with drain where a leak would run into rooms.',
      why: 'Clients plan by the age, and a heater above a finished room needs somewhere to leak to.',
      evidence: note('fuel, gallons, year; pan and cold valve'),
      basis: EXTRA,
      minutes: 0.5,
      references: [trade('service lives, not told as promise')],
    }),
    step({
      key: 'relief-valve-pipe',
      title: 'Relief valve and its discharge pipe',
      per: 'water_heater',
      kit: ['flashlight'],
      instruction:
        'See that the valve is there and follow its pipe: full size, falling, no valve, no cap, no thread at the end, ending within 6 in of the floor in view. ' +
        'Do not lift the lever.',
      why: 'Without it a tank with a failed control can explode.',
      caution: 'Never lift the lever: it may not close again, and the water scalds.',
      evidence: choice({
        proper: 'valve and pipe proper',
        pipe: 'pipe missing, short or reduced',
        blocked: 'capped or blocked',
        dripping: 'dripping',
      }),
      basis: duty('SOP-140'),
      minutes: 1,
      references: [irc('P2803 to P2804.6.1: relief valve and discharge pipe')],
    }),
    step({
      key: 'hot-water-temperature',
      title: 'Hot water at the nearest bath',
      kit: ['thermometer'],
      instruction:
        'Run hot water at one bath faucet until it no longer gets hotter and read it in the stream with the probe. Change no setting.',
      why: 'Water above 120 F scalds a child in seconds.',
      caution: 'Hold the probe, not a hand, in the stream.',
      evidence: { kind: 'reading', unit: 'F', expectedFrom: 105, expectedTo: 120, hint: 'a hint only: the occupant may have set it so' },
      basis: EXTRA,
      minutes: 1,
      references: [irc('P2708: 120 F at tub and shower')],
    }),
    step({
      key: 'water-heater-draft',
      title: 'Draft at the hood after five minutes',
      per: 'water_heater',
      applies: burns('natural_gas', 'propane', 'oil'),
      kit: ['carbon_monoxide_meter'],
      instruction:
        'Where the heater has an open draft hood and fires because hot water was run: after five minutes read carbon monoxide in the room beside the hood, ' +
        'bath fans and dryer on if they were on. Sealed and electric heaters: none at this property.',
      why: 'In a tight house the fans can pull the vent backward.',
      caution:
        'At 70 ppm everybody out, call 911 from outside. From 9 ppm on open up and stop what burns by its normal control. The hood is hot.',
      evidence: {
        kind: 'reading',
        unit: 'ppm',
        expectedFrom: 0,
        expectedTo: 9,
        hint: 'a hint only: rising numbers matter more than one reading',
      },
      basis: EXTRA,
      minutes: 1,
      references: [trade('spillage at draft hoods')],
    }),
  ],
};
