// Interior: surfaces, water signs, stairs and guards, doors, windows, venting of wet rooms.
import type { Procedure } from '@backsight/domain/procedures/step';
import { cfr, choice, CONFIRM, duty, EXTRA, has, irc, note, step, trade } from './shorthand.ts';

export const INTERIOR: Procedure = {
  key: 'interior',
  title: 'Interior',
  system: 'interior',
  steps: [
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
      minutes: 2.5,
      references: [trade('moisture readings compare places')],
    }),
    step({
      key: 'walls-ceilings-floors',
      title: 'Walls, ceilings and floors, each room',
      kit: ['flashlight', 'camera'],
      instruction:
        'Room by room in one direction: ceiling, walls, floor. Note cracks that are wide, stepped or new, sagging, and slopes that agree with those below. Finishes are not judged.',
      why: 'A crack tells something only together with the same place on the floors above and below.',
      evidence: note('rooms with cracks, sags or soft places, or none'),
      basis: duty('SOP-162'),
      minutes: 4.5,
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
      minutes: 2.5,
    }),
    step({
      key: 'bedroom-escape',
      title: 'A way out of each bedroom',
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
    step({
      key: 'safety-glass',
      title: 'Safety glass where a person falls',
      after: ['doors-windows-cabinets'],
      instruction:
        'At tubs and showers, glass doors and panes beside them, stairs and landings, and low large panes look for the etched mark in a corner. Name the panes without one as a safety improvement.',
      why: 'Plain glass beside a stair opens an artery.',
      evidence: choice({
        marked: 'marked where looked for',
        unmarked: 'panes without a mark',
        broken: 'cracked or broken panes',
        none: 'no such panes',
      }),
      basis: EXTRA,
      minutes: 0.5,
      references: [irc('R308.4: hazardous locations of glass')],
    }),
    step({
      key: 'condensation-and-mold-like-growth',
      title: 'Condensation and mold-like growth',
      kit: ['flashlight'],
      instruction:
        'Look at window sills, closets on outside walls, behind the door of the coldest room and under sinks for wet glass, dark spots and a musty smell. Write "mold-like growth" and its size; never the kind, never a health opinion.',
      why: 'It is the mark of a house too damp or a wall too cold.',
      evidence: choice({ none: 'none seen', wet: 'wet glass or damp places', growth: 'mold-like growth', several: 'both' }),
      basis: duty('SOP-166'),
      minutes: 0.5,
    }),
    step({
      key: 'radon-fan-as-found',
      title: 'Radon fan and its gauge as found',
      applies: {
        any: [
          { fact: 'foundation', compare: 'includes', value: 'basement' },
          { fact: 'foundation', compare: 'includes', value: 'crawl_space' },
        ],
      },
      instruction:
        'Where a pipe rises from floor or sump lid look at the gauge (two levels apart means that it pulls), listen for the fan outside living space, and see that sump lid and cracks are sealed. Change nothing. One Wisconsin home in ten is high: offer a measurement.',
      why: 'A fan that stopped years ago still looks like protection.',
      evidence: choice({
        none: 'no system',
        pulls: 'system, gauge shows pull',
        stopped: 'system, no pull or fan off',
        unsealed: 'system, lid or floor not sealed',
      }),
      basis: EXTRA,
      minutes: 0.5,
      references: [
        {
          title: 'Wisconsin Department of Health Services, radon pages',
          section: 'one home in ten is high (secondary copy)',
          edition: 'edition not noted',
          status: 'found',
        },
      ],
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
      key: 'old-paint-inside',
      title: 'Peeling paint inside, house built before 1978',
      applies: { fact: 'yearBuilt', compare: 'below', value: 1978 },
      instruction:
        'Look at window troughs, door frames and stairs where paint rubs off. Say "paint of a house of this age may hold lead". Take no sample.',
      why: 'The dust of a rubbing window is what a crawling child eats.',
      caution: 'Do not scrape or sand. Wash hands before eating.',
      evidence: choice({ sound: 'paint sound as seen', peeling: 'peels or rubs off', covered: 'newer windows and trim' }),
      basis: EXTRA,
      minutes: 0.5,
      references: [cfr('40 CFR 745 and 24 CFR 35: housing built before 1978')],
    }),
    step({
      key: 'old-floor-tiles-and-wraps',
      title: 'Old floor tiles, ceiling texture and wraps that may hold asbestos',
      applies: { fact: 'yearBuilt', compare: 'below', value: 1981 },
      instruction:
        'Note 9-inch tiles, black glue, gray board around heaters, sprayed ceilings and wrapped ducts, and whether they are whole. Say that only a laboratory can tell. Break and sample nothing.',
      why: 'Whole it does no harm; sanded for a new floor it does.',
      caution: 'Do not touch, sweep or vacuum what crumbles: leave the room and tell the occupant.',
      evidence: choice({ none: 'none seen', whole: 'suspect material, whole', broken: 'suspect material, broken or crumbling' }),
      basis: EXTRA,
      minutes: 0.5,
      references: [trade('suspect asbestos is left alone')],
    }),
    step({
      key: 'unit-entered',
      title: 'Unit: entered, heat, water, exits',
      per: 'unit',
      applies: { fact: 'kind', compare: 'is', value: 'two_to_four_units' },
      instruction:
        'Knock, say who you are, enter only with the tenant or with notice given. State which rooms were seen. Two ways out, heat, water, and the door to the common stair that closes by itself.',
      why: 'A unit that nobody entered was not inspected, and the report must say which.',
      evidence: choice({ whole: 'entered, all rooms seen', part: 'entered, some rooms locked', not_entered: 'not entered' }),
      basis: EXTRA,
      minutes: 2,
      references: [trade('tenants and notice')],
    }),
    step({
      key: 'walls-and-doors-between-units',
      title: 'Walls, ceilings and doors between units',
      applies: { fact: 'kind', compare: 'isOneOf', value: ['two_to_four_units', 'condominium'] },
      instruction:
        'In basement, stairs and halls look for holes around pipes, missing board, doors propped open or without closer, and a boiler room open to the stair.',
      why: 'It is what gives the neighbor upstairs time to get out.',
      evidence: choice({
        whole: 'whole as seen',
        open: 'holes or missing board',
        door: 'doors do not close or latch',
        several: 'several of these',
      }),
      basis: duty('SOP-165'),
      minutes: 1,
    }),
    step({
      key: 'common-stairs-and-exits',
      title: 'Common stairs, lights and ways out',
      applies: { fact: 'kind', compare: 'is', value: 'two_to_four_units' },
      kit: ['flashlight'],
      instruction:
        'Walk each common stair to the outside in the way that a tenant would in the dark: light, rail, nothing stored, doors that open without a key.',
      why: 'A bicycle on the only stair is a locked door in smoke.',
      evidence: choice({
        clear: 'clear, lit and railed',
        dark: 'light or rail missing',
        blocked: 'blocked or locked',
        several: 'several of these',
      }),
      basis: duty('SOP-163'),
      minutes: 1,
    }),
    step({
      key: 'condominium-limits',
      title: 'Condominium: what is the unit and what is the association',
      applies: { fact: 'kind', compare: 'is', value: 'condominium' },
      instruction:
        'Ask which parts the association keeps up: roof, outside, common systems. State which of them were looked at and which were not, and that its papers are for the client and attorney.',
      why: 'A roof that belongs to everybody leaks onto one.',
      evidence: note('parts looked at; parts of the association left out'),
      basis: EXTRA,
      minutes: 1,
      references: [trade('limits in a condominium')],
    }),
    step({
      key: 'vacant-house-signs',
      title: 'Vacant house: what a winter without people leaves',
      applies: { fact: 'occupied', compare: 'is', value: 'vacant' },
      kit: ['flashlight'],
      instruction:
        'Look for split pipes, dry traps, frost heave at the door sill, animal or human entry, a refrigerator shut without power, and meters that are gone. Smell for gas and sewer before going down.',
      why: 'Nobody has lived with this house long enough to tell what it does.',
      caution:
        'Call out before you go in. Anybody inside, or signs that somebody sleeps there: leave, and call the office. Needles and droppings stay untouched.',
      evidence: note('what was seen, or nothing unusual'),
      basis: EXTRA,
      minutes: 1.5,
      references: [trade('vacant houses')],
    }),
  ],
};
