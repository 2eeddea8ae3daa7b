// Roof: how it was seen, covering, flashings and openings, drainage, chimney.
import type { Procedure } from '@backsight/domain/procedures/step';
import { cfr, choice, CONFIRM, duty, EXTRA, has, irc, note, step, trade } from './shorthand.ts';

export const ROOF: Procedure = {
  key: 'roof',
  title: 'Roof',
  system: 'roof',
  steps: [
    step({
      key: 'snow-cover',
      title: 'Snow on roof and ground',
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
      style: 'read_then_do',
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
      key: 'roof-covering',
      title: 'Roof covering, each slope',
      kit: ['camera'],
      who: 'partner_check',
      after: ['roof-method'],
      instruction:
        'Name the covering and look at every slope for cracked, curled, slipped or missing pieces, bare patches, soft spots, patches and a ' +
        "second layer. Photograph each slope. Each of you looks and records without the other's answer; from the ground is enough for the second look.",
      why: 'Roof leaks are among the costliest complaints, and one pair of eyes has its sun in the wrong place.',
      caution: 'Keep to the limits recorded when the ladder was set. Looking from the ground is always a good answer.',
      evidence: choice({
        sound: 'sound as seen',
        worn: 'worn, aging or patched',
        damaged: 'damaged or missing pieces',
        part_seen: 'seen only in part',
      }),
      basis: duty('SOP-121'),
      minutes: 4,
      references: [irc('R905.2.2: asphalt shingles from 2 in 12')],
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
  ],
};
