// Structure: foundation, columns, floor framing, basement, sump and crawl space.
import type { Procedure } from '@backsight/domain/procedures/step';
import { cfr, choice, CONFIRM, duty, EXTRA, foundation, has, irc, note, step, trade } from './shorthand.ts';

const BELOW_GROUND = { any: [foundation('basement'), foundation('crawl_space')] } as const;

export const STRUCTURE: Procedure = {
  key: 'structure',
  title: 'Structure, basement and crawl space',
  system: 'structure',
  steps: [
    step({
      key: 'foundation-walls',
      title: 'Foundation walls, inside and out',
      kit: ['flashlight', 'level', 'camera'],
      who: 'partner_check',
      instruction:
        'Name the material. Sight along each wall with the light held flat to it. Note cracks with direction and width, bowing, shifted ' +
        'courses, and new paint or panels that hide a wall. Photograph each crack with something that shows its size. Each of you looks separately.',
      why: 'A bowed block wall is among the most expensive things to miss in a basement.',
      evidence: choice({
        sound: 'no crack or movement seen',
        minor: 'hairline or vertical cracks only',
        movement: 'horizontal or stepped cracks, bowing or shift',
        hidden: 'mostly hidden',
      }),
      basis: duty('SOP-118'),
      minutes: 3.5,
      references: [irc('R404.1.6: 6 in of wall above grade')],
    }),
    step({
      key: 'water-entry-lowest-level',
      title: 'Signs of water on the lowest level',
      applies: BELOW_GROUND,
      kit: ['flashlight', 'moisture_meter'],
      who: 'partner_check',
      instruction:
        'Look at the foot of every wall, floor joints, post feet, the bottoms of stored boxes and stairs, rust at the furnace and water ' +
        'heater. Read suspect wood with the meter; on concrete or drywall the number only compares one place with another.',
      why: 'Water is close to half of what clients complain about, and dry weather hides it.',
      evidence: choice({
        none: 'none seen',
        old: 'old signs, dry today',
        wet: 'damp or wet today',
        hidden: 'mostly hidden by finishes or belongings',
      }),
      basis: duty('SOP-166'),
      minutes: 3,
      references: [
        {
          title: 'USDA Forest Products Laboratory, Wood Handbook',
          section: 'chapter 14: below 20 percent decay does not start',
          edition: 'edition not noted',
          status: 'from memory',
        },
        trade('moisture bands for wood'),
      ],
    }),
    step({
      key: 'columns-and-beams',
      title: 'Columns and beams',
      kit: ['flashlight', 'level'],
      instruction:
        'Look at each column: foot, plumb, top plate, rust. Adjustable posts that carry the house for good are noted. Look for sagging, notched or spliced beams.',
      why: 'A jack post put in to stop a sag is a sign, not a repair.',
      evidence: CONFIRM,
      basis: duty('SOP-119'),
      minutes: 1,
    }),
    step({
      key: 'floor-framing',
      title: 'Floor framing seen from below',
      applies: { not: foundation('slab') },
      kit: ['flashlight'],
      instruction:
        'Look along the joists for cuts, notches, splits, stains below bathrooms and kitchen, and signs of insects or rot at the sill. Suspected ' +
        'insects are reported and referred to a licensed specialist.',
      why: 'Plumbers cut joists, and baths leak onto them.',
      evidence: CONFIRM,
      basis: duty('SOP-120'),
      minutes: 2,
    }),
    step({
      key: 'floors-walked',
      title: 'Floors walked, every story',
      instruction: 'Walk each room; feel for slope, bounce and soft places, first in front of tubs, toilets and outside doors.',
      why: 'Feet find what finishes hide.',
      evidence: CONFIRM,
      basis: duty('SOP-120'),
      minutes: 1,
    }),
    step({
      key: 'sill-wood-moisture',
      title: 'Sill plate: moisture of the wood',
      applies: BELOW_GROUND,
      kit: ['moisture_meter', 'flashlight'],
      instruction: 'Read the sill in the corner that lies lowest outside and under the main entry. Record the higher of the two.',
      why: 'Rot begins at the sill long before it shows.',
      evidence: {
        kind: 'reading',
        unit: '% MC',
        expectedFrom: 6,
        expectedTo: 16,
        hint: 'a hint only: 16 to 20 watch, above 20 wet; pin meters are dependable from 7 to 30',
      },
      basis: EXTRA,
      minutes: 1,
      references: [trade('moisture bands for wood')],
    }),
    step({
      key: 'sump-pump',
      title: 'Sump pit and pump',
      applies: has('sump_pump'),
      kit: ['flashlight'],
      instruction:
        'Look at pit, pump, power cord and discharge pipe and where it ends outside. Lift the cover only if it lifts freely. A pump with an ' +
        'inside or water-dependent switch is not operated; say so.',
      why: 'Here the pump is what stands between spring melt and the carpet.',
      caution: 'Water and a cord lie together: keep hands out of the pit, and do not touch the pump or unplug it.',
      evidence: choice({
        water: 'pump present, water in the pit',
        dry: 'pump present, pit dry',
        no_power: 'pump without power as found',
        no_pump: 'pit without pump',
      }),
      basis: duty('SOP-142'),
      minutes: 1,
    }),
    step({
      key: 'foundation-ventilation',
      title: 'Openings and vapor cover under the house',
      applies: foundation('crawl_space'),
      kit: ['flashlight'],
      instruction: 'Count the openings to the outside, note whether they are open, and look from the hatch at the ground cover.',
      why: 'A wet crawl space rots the floor above it.',
      evidence: { kind: 'count', of: 'open vents' },
      basis: duty('SOP-179'),
      minutes: 1,
      references: [irc('R408.1: vent area 1/150 of the floor (secondary copy)', 'found')],
    }),
    step({
      key: 'crawl-space-safe-to-enter',
      title: 'Crawl space: safe to enter?',
      place: 'crawl_space',
      applies: foundation('crawl_space'),
      kit: ['flashlight', 'gas_detector', 'coveralls_respirator'],
      instruction:
        'From the hatch: light every corner, hold the gas detector inside, listen and smell. The partner stays at the hatch the whole time. ' +
        'Agree the time by which the one inside comes out.',
      why: 'Nobody may be hurt for a crawl space: not entering is always a good answer.',
      caution:
        'Stay out with standing water and live wiring, sewage, gas smell, animals, loose or fallen soil, or nobody at the hatch. Gas smell: leave ' +
        'the house, touch no switch, call from outside.',
      evidence: choice({ enter: 'safe to enter', hatch_only: 'seen from the hatch only', stay_out: 'not entered: not safe' }),
      basis: EXTRA,
      minutes: 1,
      references: [cfr('29 CFR 1926 subpart AA: confined spaces'), trade('crawl-space stop list')],
    }),
    step({
      key: 'crawl-space-inside',
      title: 'Crawl space from inside',
      place: 'crawl_space',
      applies: foundation('crawl_space'),
      after: ['crawl-space-safe-to-enter'],
      onePersonOnly: true,
      kit: ['flashlight', 'coveralls_respirator', 'moisture_meter', 'camera'],
      instruction:
        'Go along the outside wall, then to each pier and below each bathroom. Call out what you see: the partner at the hatch may write it ' +
        'down. Photograph each pier, each stain and every place that you turned back at.',
      why: 'Entering means bodily: what was seen only from the hatch was not entered, and the record says which.',
      caution:
        'Do not crawl over or under wiring or ducts that have to be moved. Turn back when headroom falls below 18 in, when you feel unwell, or when your time is up.',
      evidence: note('parts reached; wood near soil, rot, leaks, piers, wiring on the ground'),
      basis: duty('SOP-118', 'SOP-120'),
      minutes: 15,
      references: [
        irc('R317.1: joists 18 in, girders 12 in above ground (secondary copy)', 'found'),
        {
          title: 'Washington Administrative Code',
          section: 'WAC 308-408-010(5): entering means bodily',
          edition: 'edition not noted',
          status: 'found',
        },
      ],
    }),
    step({
      key: 'block-wall-bow',
      title: 'Block wall: how far it leans or bows inward',
      applies: { all: [foundation('basement'), { fact: 'foundationMaterial', compare: 'is', value: 'block' }] },
      kit: ['level', 'camera'],
      instruction:
        'At the middle of the longest wall without corners or cross walls hold the level or a plumb line against it and measure the largest gap. Record the largest of all walls and photograph the measure in place.',
      why: 'Frost and wet clay push block walls in at mid height: a number tells the next look whether it moves.',
      evidence: {
        kind: 'reading',
        unit: 'in',
        expectedFrom: 0,
        expectedTo: 0.5,
        hint: 'a hint only: any horizontal crack deserves a structural engineer',
      },
      basis: EXTRA,
      minutes: 2,
      references: [trade('measuring bowed walls')],
    }),
    step({
      key: 'stone-or-brick-foundation',
      title: 'Stone or brick foundation: mortar, bulges, parging',
      applies: { fact: 'foundationMaterial', compare: 'isOneOf', value: ['stone', 'brick'] },
      kit: ['flashlight'],
      instruction:
        'Look for sand on the floor below joints, stones that stand out, parging that sounds hollow to a knuckle, and hard new mortar over soft old. Dig out no joint.',
      why: 'Lime mortar washes out slowly; cement over it locks the water in.',
      evidence: choice({
        sound: 'sound as seen',
        sand: 'mortar lost, sand below',
        bulge: 'bulges or loose stones',
        hidden: 'covered by parging or panels',
      }),
      basis: duty('SOP-118'),
      minutes: 2,
    }),
    step({
      key: 'treated-wood-foundation',
      title: 'Wood foundation: studs, plates, soil line',
      applies: { fact: 'foundationMaterial', compare: 'is', value: 'wood' },
      kit: ['flashlight', 'moisture_meter'],
      instruction:
        'Look for stamps of the treatment, bowed studs, stains at the bottom plate, soil above the outside film, and finishes that hide it. Read the bottom plate with the meter in two corners and record the higher.',
      why: 'It lasts as long as it drains; a wet bottom plate means that it no longer does.',
      evidence: {
        kind: 'reading',
        unit: '% MC',
        expectedFrom: 6,
        expectedTo: 20,
        hint: 'a hint only: treated wood reads high; compare places',
      },
      basis: duty('SOP-118'),
      minutes: 2,
      references: [trade('moisture bands for wood')],
    }),
    step({
      key: 'slab-on-grade-signs',
      title: 'Slab: cracks, slope, edges',
      applies: foundation('slab'),
      kit: ['level'],
      instruction:
        'Look at bare slab in garage, utility room and closets, at tile that has cracked in a line, at doors that bind, and at the slab edge outside. Name what finishes hide.',
      why: 'A slab shows its movement only where nothing covers it.',
      evidence: choice({
        sound: 'no movement seen',
        cracks: 'cracks without offset',
        offset: 'offset, slope or binding doors',
        hidden: 'mostly hidden',
      }),
      basis: duty('SOP-118', 'SOP-120'),
      minutes: 2,
    }),
    step({
      key: 'piers-and-posts',
      title: 'Piers and posts under the house',
      applies: foundation('piers'),
      kit: ['flashlight'],
      instruction:
        'From the side look at each row: what the piers are made of, lean, loose wedges, posts on bare soil, beams off center, and skirting that holds water in. State that the depth below ground is not known.',
      why: 'Frost here goes down 48 in and lifts whatever stands above it.',
      caution: 'Do not crawl under a house on piers or blocks: look from the edge. Nobody leans on a post.',
      evidence: choice({
        sound: 'upright and bearing as seen',
        leaning: 'leaning, loose or settled',
        soil: 'posts or blocks on bare soil',
        hidden: 'behind skirting',
      }),
      basis: duty('SOP-118', 'SOP-119'),
      minutes: 3,
      references: [
        {
          title: 'Wisconsin Administrative Code',
          section: 'SPS 321.16: frost depth 48 in',
          edition: 'edition not noted',
          status: 'from memory',
        },
      ],
    }),
    step({
      key: 'earlier-foundation-work',
      title: 'Earlier work on the foundation',
      applies: BELOW_GROUND,
      instruction:
        'Look for wall anchors, steel beams, carbon strips, injected cracks, an inside drain channel, fresh concrete along the walls and new paint on one wall only. Ask whether papers of the work exist.',
      why: 'A repair is news about the wall, good or bad, and its warranty has to change hands.',
      evidence: CONFIRM,
      basis: EXTRA,
      minutes: 0.5,
      references: [trade('questions about earlier repairs')],
    }),
    step({
      key: 'what-invites-wood-insects',
      title: 'What invites rot and wood-eating insects',
      instruction:
        'Note wood in soil, firewood at the wall, stumps, wet sills, sawdust-like piles and mud tubes where you pass them. Name no insect: suspected insects are referred to a licensed specialist.',
      why: 'Carpenter ants follow wet wood: whoever reports the one should look for the other.',
      evidence: CONFIRM,
      basis: EXTRA,
      minutes: 0.5,
      references: [
        {
          title: 'Washington Administrative Code, as a yardstick only',
          section: 'WAC 308-408C-070: rot and pest-conducive conditions are reported, insects referred',
          edition: 'edition not noted',
          status: 'found',
        },
      ],
    }),
    step({
      key: 'crawl-space-water-and-pipes',
      title: 'Crawl space: water, pipes and ducts',
      place: 'crawl_space',
      applies: foundation('crawl_space'),
      style: 'read_then_do',
      after: ['crawl-space-safe-to-enter'],
      kit: ['flashlight'],
      instruction:
        'From the hatch or inside: standing water or its line on the piers, damp soil, a ground cover that lies open, bare water pipes that could freeze, ducts that hang or touch soil, and a dryer or bath fan that ends here.',
      why: 'Water below the floor is felt first as a musty room, later as a soft floor.',
      evidence: choice({
        dry: 'dry, pipes and ducts sound as seen',
        damp: 'damp or marks of water',
        water: 'standing water',
        pipes: 'pipes or ducts open, sagging or on soil',
        several: 'several of these',
      }),
      basis: EXTRA,
      minutes: 2,
      references: [irc('R408.1: 1/1500 of the floor with a ground cover'), trade('crawl space moisture')],
    }),
    step({
      key: 'manufactured-home-support',
      title: 'Manufactured home: supports, ties, marriage line, label',
      applies: { fact: 'kind', compare: 'is', value: 'manufactured' },
      kit: ['flashlight', 'camera'],
      instruction:
        'Photograph the red label outside and the data sheet inside if they are there. From the skirting openings look at piers, shims, tie straps, the line where halves meet, the bottom board and plumbing crossovers.',
      why: 'Lender and insurer ask for the label; wind and frost ask for the ties.',
      caution: 'Do not crawl under it. Skirting edges cut and animals live behind them.',
      evidence: choice({
        sound: 'supports and ties as seen sound',
        loose: 'loose, rusted or missing ties or piers',
        torn: 'bottom board torn or wet',
        several: 'several of these',
        hidden: 'could not be seen',
      }),
      basis: duty('SOP-118', 'SOP-119'),
      minutes: 4,
      references: [cfr('24 CFR 3280.11: label of a manufactured home'), trade('manufactured homes')],
    }),
    step({
      key: 'new-construction-stage',
      title: 'New construction: which stage we saw',
      applies: { fact: 'kind', compare: 'is', value: 'new_construction' },
      instruction:
        'Say with the superintendent who else works here. State the stage and what is open, closed or missing today: framing, wiring, insulation, finishes, grading, permits posted. We do not replace the inspections of the building department.',
      why: 'What was closed on the day was not seen, however new it is.',
      caution: 'Hard hat and boots. Keep off open joists, unguarded stairs and wet floors; leave when loads are lifted overhead.',
      evidence: note('stage, what was open, what was closed or missing'),
      basis: EXTRA,
      minutes: 3,
      references: [trade('stages of new construction')],
    }),
  ],
};
