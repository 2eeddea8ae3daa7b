// Interior: surfaces, water signs, stairs and guards, doors, windows, venting of wet rooms.
import type { Procedure } from '@backsight/domain/procedures/step';
import { choice, CONFIRM, duty, EXTRA, has, irc, note, step, trade } from './shorthand.ts';

export const INTERIOR: Procedure = {
  key: 'interior',
  title: 'Interior',
  system: 'interior',
  steps: [
    step({
      key: 'walls-ceilings-floors',
      title: 'Walls, ceilings and floors, each room',
      kit: ['flashlight', 'camera'],
      instruction:
        'Room by room in one direction: ceiling, walls, floor. Note cracks that are wide, stepped or new, sagging, and slopes that agree with those below. Finishes are not judged.',
      why: 'A crack tells something only together with the same place on the floors above and below.',
      evidence: note('rooms with cracks, sags or soft places, or none'),
      basis: duty('SOP-162'),
      minutes: 5,
    }),
    step({
      key: 'water-signs-inside',
      title: 'Signs of water on ceilings and around windows',
      who: 'partner_check',
      kit: ['flashlight', 'moisture_meter', 'camera'],
      instruction:
        'Under baths, below roof valleys and around windows and chimney: stains, ripples, fresh paint in one place. Read suspect places with the meter and compare ' +
        'with a dry one nearby. Each of you looks separately.',
      why: 'Fresh paint under a bathroom has a reason.',
      evidence: choice({ none: 'none seen', dry: 'stains, dry today', wet: 'damp or wet today' }),
      basis: duty('SOP-166'),
      minutes: 3,
      references: [trade('moisture readings compare places')],
    }),
    step({
      key: 'stairs-and-guards-inside',
      title: 'Stairs, guards and handrails inside',
      applies: {
        any: [
          has('stairs'),
          { fact: 'stories', compare: 'above', value: 1 },
          { fact: 'foundation', compare: 'includes', value: 'basement' },
        ],
      },
      kit: ['level'],
      instruction:
        'Walk each flight; try rails with a hand; measure the riser that feels different, the guard height and the widest opening.',
      why: 'One riser that differs makes everybody trip at the same step.',
      evidence: choice({
        good: 'firm and even',
        rail: 'rail or guard loose, low, open or missing',
        uneven: 'risers uneven or steep',
        several: 'several of these',
      }),
      basis: duty('SOP-163'),
      minutes: 1,
      references: [
        irc('R312.1 and R311.7: guards, risers, rails'),
        {
          title: 'Wisconsin Administrative Code',
          section: 'SPS 321.04: 8 in riser, 9 in tread',
          edition: 'edition not noted',
          status: 'from memory',
        },
      ],
    }),
    step({
      key: 'doors-windows-cabinets',
      title: 'Doors, windows, counters and cabinets, a representative number',
      instruction:
        'In each room operate one door and one window and look at both; in the kitchen a few doors and drawers. Close and latch each as it was.',
      why: 'Doors that bind in one corner of the house agree with the foundation.',
      evidence: CONFIRM,
      basis: duty('SOP-164'),
      minutes: 3,
    }),
    step({
      key: 'bedroom-escape',
      title: 'A way out of each bedroom',
      style: 'read_then_do',
      after: ['doors-windows-cabinets'],
      instruction:
        'In each bedroom, first in the basement: is there a window or door to the outside that opens far enough and low enough? Count bedrooms without one.',
      why: 'In a fire the stairs are gone first.',
      evidence: { kind: 'count', of: 'bedrooms without a way out' },
      basis: EXTRA,
      minutes: 1,
      references: [irc('R310.2: 5.7 sq ft, 24 in high, 20 in wide, sill at 44 in or lower')],
    }),
    step({
      key: 'bathroom-venting',
      title: 'Bathroom: fan or window',
      per: 'bathroom',
      instruction:
        'Switch the fan on, hold a sheet of paper to the grille, switch it off as it was. Without a fan open the window. Note mold-like growth.',
      why: 'Steam that stays in the room ends in the walls.',
      evidence: choice({ draws: 'fan draws', weak: 'fan weak or dead', window: 'window only', none: 'neither' }),
      basis: duty('SOP-180'),
      minutes: 1,
    }),
    step({
      key: 'kitchen-and-laundry-venting',
      title: 'Kitchen hood and dryer: where they blow',
      instruction:
        'Run the hood on each speed, look above it or outside for its duct, switch it off. Behind the dryer look, without moving it, for a duct that is crushed, of ' +
        'plastic, or ends inside; find its cap outside.',
      why: 'Lint and damp that stay inside burn and rot.',
      evidence: choice({
        outside: 'both end outside',
        hood_returns: 'hood returns to the room',
        dryer_inside: 'dryer ends inside or is crushed',
        several: 'both of these',
        not_seen: 'could not be seen',
      }),
      basis: duty('SOP-180'),
      minutes: 1,
      references: [irc('M1502: dryer ducts, 35 ft less fittings')],
    }),
  ],
};
