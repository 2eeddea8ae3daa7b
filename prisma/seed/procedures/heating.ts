// Heating: as found, equipment, run by its normal control, vents and distribution.
import type { Procedure } from '@backsight/domain/procedures/step';
import { burns, choice, duty, EXTRA, heats, note, step, trade } from './shorthand.ts';

export const HEATING: Procedure = {
  key: 'heating',
  title: 'Heating',
  system: 'heating',
  steps: [
    step({
      key: 'thermostat-as-found',
      title: 'Thermostat as found',
      per: 'heating_system',
      style: 'read_then_do',
      kit: ['camera'],
      instruction:
        'Before touching it photograph the thermostat: mode, set temperature, fan, schedule or hold. In a house without heating write down what controls cooling.',
      why: 'It has to stand exactly so when we leave.',
      evidence: note('mode, set temperature, fan, hold or schedule'),
      basis: EXTRA,
      minutes: 1,
      references: [trade('settings restored')],
    }),
    step({
      key: 'heating-equipment',
      title: 'Heating equipment, energy source and distribution',
      per: 'heating_system',
      kit: ['flashlight', 'camera'],
      instruction:
        'Name kind, energy source and how heat is carried. Photograph the data plate. Open only the panels that an owner may open. ' +
        'Look at burner space, filter, rust, water marks, ducts or pipes, and the disconnect. Found off stays off.',
      why: 'Rust below and soot at the burner tell more than the running noise.',
      caution: 'Do not open a panel behind which live parts or a flame lie open. Keep sleeves and hair from blowers.',
      evidence: choice({ sound: 'sound as seen', wear: 'rust, soot or leaks', off: 'off as found', not_seen: 'not accessible' }),
      basis: duty('SOP-168', 'SOP-169'),
      minutes: 3,
      references: [trade('service lives, not told as promise')],
    }),
    step({
      key: 'heating-run',
      title: 'Heating run by its normal control',
      per: 'heating_system',
      after: ['thermostat-as-found', 'weather-outside'],
      instruction:
        'Raise the thermostat, stand by the equipment for the start, listen and look at flame and vent. Let it run 10 minutes. Do not run a heat pump in heat ' +
        'above 65 to 70 F outside. If it was off as found, do not start it.',
      why: 'A burner that fails usually shows it at the start.',
      caution:
        'Stand to the side of the burner at the start. Flame that rolls out, smell or smoke: thermostat down, everybody away, report.',
      evidence: choice({
        runs: 'starts and runs',
        fails: 'does not start',
        unusual: 'runs with unusual flame, noise or smell',
        not_run: 'not run: weather or off as found',
      }),
      basis: duty('SOP-171'),
      minutes: 2,
      references: [trade('no heat pump in heat above 65 to 70 F')],
    }),
    step({
      key: 'furnace-rise',
      title: 'Air temperature rise of the furnace',
      per: 'heating_system',
      applies: heats('forced_air'),
      kit: ['thermometer'],
      style: 'read_then_do',
      after: ['heating-run'],
      instruction:
        'After 10 minutes read the return air near the blower, then the supply air beyond sight of the heat exchanger. Compare with the band on the data plate.',
      why: "Outside the plate's band the heat exchanger ages fast.",
      evidence: {
        kind: 'difference',
        unit: 'F',
        firstLabel: 'return air',
        secondLabel: 'supply air',
        expectedFrom: 30,
        expectedTo: 70,
        hint: 'a hint only: the band on the data plate decides',
      },
      basis: EXTRA,
      minutes: 1,
      references: [trade('rise within the data plate band')],
    }),
    step({
      key: 'heating-vents-and-flues',
      title: 'Vents, flue connectors and solid-fuel parts of the heating',
      per: 'heating_system',
      applies: burns('natural_gas', 'propane', 'oil', 'wood'),
      kit: ['flashlight', 'carbon_monoxide_meter'],
      instruction:
        'Follow each vent from appliance to wall or chimney: slope, screws, rust, distance to wood, joints, end outside. Read the meter in the room while it runs. ' +
        'Inside of flues is not part of our inspection.',
      why: 'A vent that has come apart is the fault that kills a family.',
      caution: 'Vents burn. At 70 ppm everybody out, call 911 from outside.',
      evidence: { kind: 'reading', unit: 'ppm', expectedFrom: 0, expectedTo: 9, hint: 'a hint only' },
      basis: duty('SOP-170'),
      minutes: 1,
      references: [trade('9 and 70 ppm for the crew')],
    }),
    step({
      key: 'buried-oil-tank-signs',
      title: 'Signs of an oil tank, past or present',
      applies: { any: [burns('oil'), { fact: 'yearBuilt', compare: 'below', value: 1975 }] },
      kit: ['flashlight'],
      instruction:
        'Look for fill and vent pipes at the outside wall, cut copper lines in the basement floor, and an inside tank with weeping seams. Report signs; dig nothing.',
      why: 'A buried tank is found at the worst time, by the next owner.',
      evidence: choice({ none: 'no signs', inside: 'tank inside', signs: 'pipes or lines that suggest a buried tank' }),
      basis: EXTRA,
      minutes: 1,
      references: [trade('buried oil tanks')],
    }),
  ],
};
