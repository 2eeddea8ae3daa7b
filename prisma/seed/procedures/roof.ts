// Roof: how it was seen, covering, flashings and openings, drainage, chimney.
import type { Procedure } from '@backsight/domain/procedures/step';
import { at, cfr, choice, CONFIRM, duty, EXTRA, has, irc, note, photo, step, trade } from './shorthand.ts';

export const ROOF: Procedure = {
  key: 'roof',
  title: 'Roof',
  system: 'roof',
  steps: at('roof', [
    step({
      key: 'snow-cover',
      title: 'Snow on roof and ground',
      place: 'elsewhere',
      applies: { seasonFrom: '11-15', seasonTo: '04-15' },
      instruction:
        'From the ground judge how much of the roof and of the ground near the house is under snow. Do not clear any. If the roof cannot ' +
        'be seen, say so to the client and offer a later look.',
      why: 'What lay under snow was not inspected, and the client must know that on the day.',
      evidence: choice({ none: 'no snow', part: 'part of it covered', whole: 'covered' }),
      basis: EXTRA,
      minutes: 1,
      references: [trade('later look after snow')],
    }),
    step({
      key: 'ladder-set',
      title: 'Ladder set and tied, or not used',
      kit: ['ladder'],
      after: ['weather-outside'],
      instruction:
        'Decide together whether the eave may be reached. Firm level ground, base one out for every four up, rails 3 ft above the eave, ' +
        'the partner at the foot until it is tied. Agree when the one who goes up is expected back.',
      why: 'A ladder that slides is the worst that can happen to us on an ordinary day.',
      caution:
        'No ladder in wind, rain, ice or snow, within 10 ft of overhead lines, or on ground that gives. Walk no roof that is wet, icy, frosted, ' +
        "brittle, of tile or slate, steeper than about 6 in 12, or whose eave is out of the ladder's reach. Never alone.",
      evidence: choice({ set: 'ladder set and tied', not_used: 'not used: not safe today', not_needed: 'not needed' }),
      basis: EXTRA,
      minutes: 2,
      references: [
        cfr('29 CFR 1926.1053(a)(1)(ii): 75.5 degrees', 'found'),
        cfr('29 CFR 1926.1053(b)(1), (b)(5): 3 ft above, one out for four up'),
        cfr('29 CFR 1910.333(c)(3): 10 ft from overhead lines'),
        trade('roofs that are not walked'),
      ],
    }),
    step({
      key: 'roof-method',
      title: 'How the roof was seen',
      after: ['ladder-set'],
      instruction:
        'Record the best way in which each slope was really seen. If slopes were seen in different ways, take the poorest and name the slopes in the remarks.',
      why: 'The report must state the method, and the reader judges by it how much we could see.',
      evidence: choice({
        walked: 'walked on it',
        eave: 'from a ladder at the eave',
        window: 'from a window or another roof',
        ground: 'from the ground with glasses',
        not_seen: 'not seen',
      }),
      basis: duty('SOP-126'),
      minutes: 1,
    }),
    step({
      key: 'roof-flashings-and-openings',
      title: 'Flashings, skylights and roof penetrations',
      after: ['roof-method'],
      kit: ['camera'],
      instruction:
        'Look at valleys, step and kick-out flashings, pipe boots, vents and skylights. Name each one that is lifted, cracked, caulked over or missing.',
      why: 'Roofs leak where something goes through them.',
      evidence: note('flashings and openings that are open or repaired, or none'),
      basis: duty('SOP-123', 'SOP-124'),
      minutes: 2,
    }),
    step({
      key: 'roof-drainage',
      title: 'Gutters and downspouts',
      instruction:
        'Look for sagging, holes, plants, loose hangers and downspouts that end at the wall or go into the ground to nowhere visible.',
      why: 'A blocked gutter wets the wall, then the basement.',
      evidence: CONFIRM,
      basis: duty('SOP-122'),
      minutes: 1,
    }),
    step({
      key: 'chimney-outside',
      title: 'Chimney above the roof',
      applies: has('chimney'),
      after: ['roof-method'],
      kit: ['camera'],
      instruction:
        'Look at crown, cap, brick, flashing and lean; estimate its height above the roof. The inside of the flue is not part of our inspection: say so.',
      why: 'Loose brick falls, and an open crown lets water into the house.',
      evidence: choice({
        sound: 'sound as seen',
        open: 'cracked or open joints',
        leans: 'leans or is loose',
        not_seen: 'could not be seen',
      }),
      basis: duty('SOP-124'),
      minutes: 1,
      references: [irc('R1003.9: 3 ft above the roof, 2 ft above anything within 10 ft')],
    }),
    step({
      key: 'ice-dam-signs',
      title: 'Signs of ice dams at the eaves',
      after: ['roof-method'],
      instruction:
        'Look along the eaves for heat cables, bent gutters, loosened shingle edges, stained soffits and patched ceilings below. In winter note icicles behind the gutter and bare strips above warm rooms.',
      why: 'Ice at a cold eave pushes melt water up under the shingles and into the wall.',
      evidence: choice({
        none: 'no signs',
        signs: 'cables, stains or bent gutters',
        ice: 'ice at the eave today',
        not_seen: 'could not be seen',
      }),
      basis: EXTRA,
      minutes: 0.5,
      references: [irc('R905.1.2: ice barrier to 24 in inside the wall line'), trade('ice dams')],
    }),
    step({
      key: 'asphalt-shingles-detail',
      title: 'Asphalt shingles: slope, layers, nails, edges',
      applies: { fact: 'roofCovering', compare: 'is', value: 'asphalt' },
      after: ['roof-method'],
      instruction:
        'At the edge count layers. Note slopes flatter than 2 in 12, nails that stand up, missing drip edge, granules in the gutter, and shingles that do not lie sealed. Lift none by force.',
      why: 'A second layer and a flat slope shorten the life of what looks good from the street.',
      evidence: choice({
        one: 'one layer, slope suits',
        two: 'two layers or more',
        flat: 'slope too flat for shingles',
        nails: 'nails up, unsealed or edges open',
        not_seen: 'could not be seen',
      }),
      basis: EXTRA,
      minutes: 0.5,
      references: [irc('R905.2.2: from 2 in 12, double underlay to 4 in 12')],
    }),
    step({
      key: 'roof-covering-photo',
      title: 'Roof covering, photographed from where it was seen',
      after: ['roof-method'],
      kit: ['camera'],
      instruction: 'Photograph each slope from where you stood when you looked at it. Nobody goes higher for a picture.',
      why: 'It shows what could be seen from there, and what could not.',
      evidence: photo('each slope, from where it was seen'),
      basis: EXTRA,
      minutes: 0.5,
      references: [trade('slopes photographed')],
    }),
    step({
      key: 'roof-covering',
      title: 'Roof covering, each slope',
      kit: ['camera'],
      who: 'partner_check',
      after: ['roof-method'],
      instruction:
        'Name the covering and look at every slope for cracked, curled, slipped or missing pieces, bare patches, soft spots, patches and a ' +
        "second layer. Each of you looks and records without the other's answer; from the ground is enough for the second look.",
      why: 'Roof leaks are among the costliest complaints, and one pair of eyes has its sun in the wrong place.',
      caution: 'Keep to the limits recorded when the ladder was set. Looking from the ground is always a good answer.',
      evidence: choice({
        sound: 'sound as seen',
        worn: 'worn, aging or patched',
        damaged: 'damaged or missing pieces',
        part_seen: 'seen only in part',
      }),
      basis: duty('SOP-121'),
      minutes: 3,
      references: [irc('R905.2.2: asphalt shingles from 2 in 12')],
    }),
    step({
      key: 'wood-roof-detail',
      title: 'Wood shakes or shingles',
      applies: { fact: 'roofCovering', compare: 'is', value: 'wood' },
      after: ['roof-method'],
      instruction:
        'From the eave and the ground: splits, cupping, moss, missing pieces, bare nails, repairs with metal. Count on the ground what has come off.',
      why: 'Wood roofs rot from below where they never dry.',
      caution: 'Do not walk it: it breaks, and it is slippery when damp even in sun.',
      evidence: choice({
        sound: 'sound as seen',
        worn: 'split, cupped or mossy',
        missing: 'pieces missing',
        not_seen: 'could not be seen',
      }),
      basis: duty('SOP-121'),
      minutes: 2,
    }),
    step({
      key: 'metal-roof-detail',
      title: 'Metal roof: seams, fasteners, snow guards',
      applies: { fact: 'roofCovering', compare: 'is', value: 'metal' },
      after: ['roof-method'],
      instruction:
        'Look at seams, screws that back out, rubber washers, rust at cut edges, and flashings sealed with caulk only. Note whether snow can slide onto a door, walk, meter or vent.',
      why: 'A sheet of snow from a metal roof breaks meters and people.',
      caution: 'Do not walk it. Do not stand below the eave when snow lies on it.',
      evidence: choice({
        sound: 'sound as seen',
        fasteners: 'fasteners or seams open',
        snow: 'snow slides onto a door, walk or meter',
        not_seen: 'could not be seen',
      }),
      basis: duty('SOP-121'),
      minutes: 2,
    }),
    step({
      key: 'slate-or-tile-roof-detail',
      title: 'Slate or tile roof',
      applies: { fact: 'roofCovering', compare: 'isOneOf', value: ['slate', 'tile'] },
      after: ['roof-method'],
      instruction:
        'With glasses from the ground on each side: slipped, cracked and missing pieces, tar patches, rusted valleys, broken ridge. Count slipped and missing pieces by slope in the remarks.',
      why: 'The pieces last a century, their nails and valleys do not.',
      caution: 'Never walk it: it breaks under a foot and pieces slide off onto the one below. Stand away from the eave.',
      evidence: choice({
        sound: 'sound as seen',
        few: 'a few slipped or broken',
        many: 'many slipped, broken or patched',
        not_seen: 'could not be seen',
      }),
      basis: duty('SOP-121'),
      minutes: 2,
    }),
    step({
      key: 'flat-roof-detail',
      title: 'Flat roof: membrane, drains, edges',
      applies: { fact: 'roofCovering', compare: 'is', value: 'membrane' },
      after: ['ladder-set', 'roof-method'],
      kit: ['camera'],
      instruction:
        'From the ladder or a window: blisters, open seams, ponds, dirt rings of old ponds, blocked drains or scuppers, and where the membrane turns up at walls. Photograph each seam that is open.',
      why: 'A flat roof fails at its seams and drains, and the ceiling below hides it for a season.',
      caution:
        'A flat roof has an edge without a rail: stay on the ladder or at the window. Soft places mean rotten boards: do not step there.',
      evidence: choice({
        sound: 'sound as seen',
        ponds: 'ponds or their marks',
        open: 'open seams or blisters',
        several: 'several of these',
        not_seen: 'could not be seen',
      }),
      basis: duty('SOP-121', 'SOP-122'),
      minutes: 2,
    }),
    step({
      key: 'ladder-down',
      title: 'Ladder down, eave and gutter unharmed',
      style: 'read_then_do',
      after: ['ladder-set', 'roof-covering'],
      instruction:
        'The one who was up says so on the ground. Untie, lower the ladder with two people, look at gutter and eave where it stood, and load it. No ladder used: none at this property.',
      why: 'A ladder left standing is climbed by a child, and a dent in a gutter is ours only if we say so today.',
      caution: 'Look up before you lower it: overhead lines stay 10 ft away.',
      evidence: choice({ down: 'down, nothing harmed', harmed: 'down, gutter or eave marked: occupant told' }),
      basis: EXTRA,
      minutes: 0.5,
      references: [cfr('29 CFR 1910.333(c)(3): 10 ft from overhead lines'), trade('ladders after use')],
    }),
  ]),
};
