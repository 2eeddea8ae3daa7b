// Pool and spa, when the client has ordered it: people drown here, so what keeps a child out comes first.
import type { Procedure } from '@backsight/domain/procedures/step';
import { choice, EXTRA, has, irc, ordered, step, trade } from './shorthand.ts';

const POOL_SPA = ordered('pool_spa');

export const POOL_AND_SPA: Procedure = {
  key: 'pool-and-spa',
  title: 'Pool and spa',
  system: 'pool_spa',
  steps: [
    step({
      key: 'pool-barrier',
      title: 'Barrier and gates around the water',
      applies: POOL_SPA,
      kit: ['level'],
      instruction:
        'Walk the whole barrier: height 48 in or more, no gap over 4 in, nothing to climb on, gates that close and latch by themselves and open outward, house doors to the water with alarm or latch. Leave each gate latched.',
      why: 'A small child drowns in the minute in which a gate stands open.',
      caution:
        'One of you keeps an eye on the water while gates are open. No barrier or a gate that does not latch: tell those at the house today.',
      evidence: choice({
        closed: 'whole, gates close and latch',
        gap: 'gap, low or climbable',
        gate: 'a gate does not close or latch',
        none: 'no barrier',
        several: 'several of these',
      }),
      basis: EXTRA,
      minutes: 4,
      references: [
        {
          title: 'International Swimming Pool and Spa Code',
          section: '305: barriers',
          edition: 'edition not noted',
          status: 'from memory',
        },
        {
          title: 'California Business and Professions Code, as a yardstick only',
          section: '7195(a)(2): seven safety features',
          edition: 'edition not noted',
          status: 'found',
        },
      ],
    }),
    step({
      key: 'pool-drain-covers',
      title: 'Drain covers and suction',
      applies: { all: [POOL_SPA, has('pool')] },
      instruction:
        'From the edge, with the pump off and the water still: two main drains apart or one with a shaped cover, covers whole and screwed down. Water too cloudy to see the floor: say so, and that nobody should swim.',
      why: 'One blocked drain holds a person under by suction.',
      caution:
        'Nobody goes in or reaches in. A missing or broken cover: pump off by its normal control, tell the occupant that nobody may swim.',
      evidence: choice({
        sound: 'covers whole, two drains or shaped',
        single: 'single flat drain',
        broken: 'broken or missing: people told',
        cloudy: 'floor not visible',
      }),
      basis: EXTRA,
      minutes: 2,
      references: [
        {
          title: 'Virginia Graeme Baker Pool and Spa Safety Act',
          section: '15 U.S.C. 8003: drain covers',
          edition: '2007',
          status: 'from memory',
        },
      ],
    }),
    step({
      key: 'pool-electrical',
      title: 'Electrical parts near the water',
      applies: POOL_SPA,
      after: ['ask-before-power'],
      kit: ['receptacle_tester'],
      instruction:
        'Look for ground-fault protection at receptacles within 20 ft and at lights and pump, a bond wire at pump, ladder and rail, cords across the deck, a disconnect in sight of the pump, and lines overhead. Press only the device buttons, with dry feet, and reset.',
      why: 'Water and current meet here on bare feet.',
      caution:
        'Dry shoes, dry hands, a step away from the edge. A tingle, a cracked light or water in a fixture: touch nothing more, nobody swims, tell the occupant.',
      evidence: choice({
        protected: 'protected and bonded as seen',
        missing: 'protection or bond not found',
        damaged: 'cracked, wet or open parts',
        several: 'several of these',
      }),
      basis: EXTRA,
      minutes: 4,
      references: [
        { title: 'NFPA 70, National Electrical Code', section: 'Article 680', edition: 'edition not noted', status: 'from memory' },
      ],
    }),
    step({
      key: 'pool-shell-and-deck',
      title: 'Shell, coping and deck',
      applies: { all: [POOL_SPA, has('pool')] },
      style: 'do_then_confirm',
      instruction:
        'State the kind (concrete, liner, fiberglass). Look at cracks, loose coping and tiles, a floating or torn liner, wrinkles, a deck that drops to the water or trips, ladder and rail, depth marks. A covered pool was not seen.',
      why: 'A wrinkled liner or a lifted shell is ground water at work.',
      evidence: choice({
        sound: 'sound as seen',
        cracks: 'cracks, tears or wrinkles',
        deck: 'deck, ladder or coping loose',
        several: 'several of these',
        covered: 'covered',
      }),
      basis: EXTRA,
      minutes: 4,
      references: [trade('pool shells')],
    }),
    step({
      key: 'pool-equipment-run',
      title: 'Pump, filter, heater run by their normal controls',
      applies: POOL_SPA,
      instruction:
        'If the system is open for the season and running or has a timer: run pump and heater by the normal control, read the filter gauge, look for leaks, air in the pump basket, noise and rust. Closed or winterized equipment stays so.',
      why: 'Leaks on the pad show only under pressure.',
      caution: 'Open no filter lid or clamp: it can fly off under pressure. Store room: chlorine and acid apart, do not breathe over them.',
      evidence: choice({
        runs: 'runs, dry as seen',
        leaks: 'leaks, air or noise',
        fails: 'a part does not run',
        not_run: 'closed for the season: not run',
      }),
      basis: EXTRA,
      minutes: 8,
      references: [trade('pool equipment')],
    }),
    step({
      key: 'spa-cover-and-temperature',
      title: 'Spa: cover, lock, temperature',
      applies: { all: [POOL_SPA, has('spa')] },
      kit: ['thermometer'],
      instruction:
        'See that the cover locks and carries weight by its label, run jets and heater by the control, and read the water with the probe. Put the cover back and lock it.',
      why: 'Water too hot makes people faint in it.',
      caution: 'Hold the probe, not a hand. Keep away from the edge while the cover is off and somebody else is near.',
      evidence: { kind: 'reading', unit: 'F', expectedFrom: 80, expectedTo: 104, hint: 'a hint only: 104 F is the usual upper limit' },
      basis: EXTRA,
      minutes: 4,
      references: [trade('104 F as upper limit of spas'), irc('R326: pools and spas')],
    }),
  ],
};
