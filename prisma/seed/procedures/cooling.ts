// Cooling: equipment, run only in weather that allows it, air temperature drop.
import type { Procedure } from '@backsight/domain/procedures/step';
import { choice, COOLED, duty, EXTRA, irc, step, trade } from './shorthand.ts';

export const COOLING: Procedure = {
  key: 'cooling',
  title: 'Cooling',
  system: 'cooling',
  steps: [
    step({
      key: 'cooling-equipment',
      title: 'Cooling equipment',
      per: 'cooling_system',
      applies: COOLED,
      kit: ['camera', 'flashlight'],
      instruction:
        'Name kind and energy source, photograph the outdoor data plate, look at level, coil fins, line insulation, disconnect in sight, and the condensate ' +
        'pipe and where it ends. A disconnect that is pulled or a breaker that is off stays so.',
      why: 'A blocked condensate pipe above a finished room is a ceiling lost.',
      caution: 'Do not open the disconnect or put a hand near the fan.',
      evidence: choice({ sound: 'sound as seen', wear: 'damage, ice or leaks', off: 'off as found', covered: 'covered or under snow' }),
      basis: duty('SOP-175'),
      minutes: 2,
    }),
    step({
      key: 'cooling-run',
      title: 'Cooling run by its normal control',
      per: 'cooling_system',
      applies: COOLED,
      after: ['thermostat-as-found', 'weather-outside'],
      instruction:
        'Only if it is and was last night warmer than 60 to 65 F outside, and the outdoor unit has had power for a day: set cooling, lower the thermostat, see both fans ' +
        'start. Let it run at least 15 minutes. Otherwise record "not run: weather" and offer a later look.',
      why: 'A compressor started cold can be damaged by our own test.',
      caution: 'Never started below 60 F, under a cover, or when off as found. Wait five minutes between stop and start.',
      evidence: choice({
        runs: 'starts and runs',
        fails: 'does not start',
        unusual: 'runs with unusual noise or ice',
        not_run: 'not run: weather or off as found',
      }),
      basis: duty('SOP-176'),
      minutes: 2,
      references: [trade('no cooling below 60 to 65 F')],
    }),
    step({
      key: 'cooling-split',
      title: 'Return air minus supply air',
      per: 'cooling_system',
      applies: COOLED,
      kit: ['thermometer'],
      after: ['cooling-run'],
      instruction:
        'After at least 15 minutes of running read the supply air at the register nearest the coil, then the return air at its grille, with the same thermometer.',
      why: 'A small drop is a reason to have it serviced; a large one hints at too little air.',
      evidence: {
        kind: 'difference',
        unit: 'F',
        firstLabel: 'supply air',
        secondLabel: 'return air',
        expectedFrom: 14,
        expectedTo: 22,
        hint: 'a hint only: says nothing about charge; not before 15 min running, not below 60 to 65 F outdoors',
      },
      basis: EXTRA,
      minutes: 1,
      references: [trade('14 to 22 F; many use 15 to 20')],
    }),
    step({
      key: 'condensate-pan-and-switch',
      title: 'Condensate: second pan, switch, where the pipe ends',
      per: 'cooling_system',
      applies: COOLED,
      kit: ['flashlight'],
      after: ['cooling-equipment'],
      instruction:
        'Where the coil stands above rooms look for a second pan with its own pipe or a float switch; is the pan dry? See where the first pipe ends: not in a plumbing vent. Pour no water.',
      why: 'The pan that nobody looks at is above the ceiling that everybody looks at.',
      evidence: choice({
        good: 'dry, pipe or switch there',
        missing: 'none above finished rooms',
        wet: 'water or rust in the second pan',
        not_needed: 'no rooms below',
        not_seen: 'not visible',
      }),
      basis: EXTRA,
      minutes: 0.5,
      references: [irc('M1411.3: condensate disposal')],
    }),
    step({
      key: 'room-cooling-units',
      title: 'Window and wall cooling units',
      applies: { fact: 'coolingKind', compare: 'is', value: 'room' },
      instruction:
        'Look at how each built-in unit is held, whether rain runs inward, and its plug and cord. In warm weather run the built-in ones a few minutes by their own control. Units that stand in a window go with the seller: not inspected.',
      why: 'A wall unit tipped inward rots the wall below it.',
      caution: 'Try no unit by hand that leans out over people.',
      evidence: choice({
        sound: 'held and dry as seen',
        loose: 'loose, tipped inward or cord poor',
        not_run: 'looked at, not run: weather',
      }),
      basis: EXTRA,
      minutes: 1,
      references: [trade('no cooling below 60 to 65 F')],
    }),
  ],
};
