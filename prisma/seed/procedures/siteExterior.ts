// Site and exterior: ground, walks, walls, trim, openings, steps and decks.
import type { Procedure } from '@backsight/domain/procedures/step';
import { cfr, choice, CONFIRM, duty, EXTRA, foundation, has, irc, note, step, trade } from './shorthand.ts';

export const SITE_EXTERIOR: Procedure = {
  key: 'site-exterior',
  title: 'Site and exterior',
  system: 'exterior',
  steps: [
    step({
      key: 'grading-and-drainage',
      title: 'Ground falls away from the house',
      kit: ['level', 'camera'],
      instruction:
        'Walk once around the house. At each side lay the level on the ground and look for soil that falls toward the wall, settled ' +
        'window wells, and downspouts that end at the wall. Photograph each low place with the wall in view. Snow and belongings are not moved: record what they hide.',
      why: 'Most wet basements begin with roof and ground water that is not led away.',
      evidence: choice({
        away: 'falls away on every side',
        toward: 'falls toward the house somewhere',
        hidden: 'hidden by snow or belongings',
      }),
      basis: duty('SOP-134'),
      minutes: 2.5,
      references: [irc('R401.3: 6 in fall in the first 10 ft')],
    }),
    step({
      key: 'walks-drives-retaining-walls',
      title: 'Walks, driveway, patio and retaining walls at the house',
      instruction:
        'Look at what abuts the house: heaved or settled slabs, edges that trip, slabs that lean toward the wall, retaining walls that lean or bulge.',
      why: 'Frost moves slabs here every winter; a slab that tips to the wall feeds the basement.',
      evidence: CONFIRM,
      basis: duty('SOP-134'),
      minutes: 1,
    }),
    step({
      key: 'cladding-flashing-trim',
      title: 'Wall covering, flashing and trim',
      kit: ['moisture_meter'],
      instruction:
        'Name the wall covering of each side. Look at joints, sill and head flashings, trim ends and anything closer than 6 in to soil; ' +
        'press suspect wood with a thumb and read it with the meter. Do not probe finished surfaces.',
      why: 'Water that gets behind a wall is seen last and costs most.',
      evidence: note('covering by side; places that are open, soft or wet'),
      basis: duty('SOP-128', 'SOP-129'),
      minutes: 3.5,
      references: [irc('R317.1: 6 in from untreated siding to ground')],
    }),
    step({
      key: 'eaves-soffits-fascia',
      title: 'Eaves, soffits and fascias',
      instruction:
        'From the ground look along every eave for stains, peeling, gaps, nests and sagging. In winter look for icicles behind the gutter.',
      why: 'Stains at the eave are the outside mark of ice dams.',
      evidence: CONFIRM,
      basis: duty('SOP-133'),
      minutes: 2,
    }),
    step({
      key: 'entry-doors-and-windows-each-side',
      title: 'Entry doors and a window on each side, operated',
      after: ['adult-present-or-vacant'],
      instruction:
        'Open, close and latch each entry door. Operate at least one window on each side of the house and close it as it was. Do not ' +
        'force a painted or swollen sash. Note double panes that have gone cloudy.',
      why: 'The rule asks for each entry door and one window a side; a window that we leave unlatched is ours.',
      evidence: { kind: 'count', of: 'windows operated' },
      basis: duty('SOP-130', 'SOP-135'),
      minutes: 3,
    }),
    step({
      key: 'stoops-steps-porches-railings',
      title: 'Stoops, outside steps, balconies, porches and railings',
      kit: ['level'],
      instruction:
        'Go up and down each flight. Feel for loose treads and shake each rail gently with one hand. Look for a stoop that has pulled away or tips to the house.',
      why: 'People carry groceries down these steps in ice: what is loose or uneven hurts somebody.',
      evidence: CONFIRM,
      basis: duty('SOP-132'),
      minutes: 2,
      references: [irc('R311.7.8: handrail at 4 or more risers, 34 to 38 in'), irc('R312.1: guard above a 30 in drop')],
    }),
    step({
      key: 'deck-ledger-and-guards',
      title: 'Deck: ledger, posts and guards',
      per: 'deck',
      applies: has('deck'),
      kit: ['flashlight', 'level', 'camera'],
      instruction:
        'Look at the deck from below before anybody walks on it. Find how the ledger is held to the house, its flashing, hangers, post ' +
        'bases and bracing. Then try each guard by leaning a hand on it, not your weight. Photograph the ledger.',
      why: 'Decks fall at the ledger, and with people on them.',
      caution:
        'Do not walk on or under a deck whose ledger, posts or beams look rotten or loose. Record it as not entered for safety and tell those in the house.',
      evidence: choice({
        bolted: 'ledger bolted or lagged',
        nailed: 'ledger nailed only',
        veneer: 'ledger held to brick or siding',
        free: 'stands free',
        hidden: 'could not be seen',
      }),
      basis: duty('SOP-132'),
      minutes: 4,
      references: [irc('R507.9: ledger bolted to the band, never to veneer'), irc('R312.1: openings under 4 in')],
    }),
    step({
      key: 'plants-at-the-house',
      title: 'Trees and plants at the house',
      instruction:
        'Look for branches over or against the roof, vines on walls, shrubs that hide the foundation, and large trees near walls and the sewer line.',
      why: 'Leaves fill gutters, vines open joints, and roots look for the nearest pipe.',
      evidence: CONFIRM,
      basis: EXTRA,
      minutes: 0.5,
      references: [trade('plants near walls and roofs')],
    }),
    step({
      key: 'openings-in-outside-walls',
      title: 'Caps, vents and pipes in the outside walls',
      instruction:
        'Look at every cap of dryer, fans, furnace and water heater: flap moves, screen where it belongs (none at the dryer), joint sealed, ' +
        'clear of snow height and shrubs. Intake and exhaust of a furnace stand apart. Touch no vent that is in use.',
      why: 'A vent closed by a nest or a drift sends its gas back into the house.',
      evidence: CONFIRM,
      basis: EXTRA,
      minutes: 0.5,
      references: [trade('vent caps in snow country')],
    }),
    step({
      key: 'window-wells-and-outside-cellar-stairs',
      title: 'Window wells and outside cellar stairs',
      applies: foundation('basement'),
      instruction:
        'Look down each window well and cellar stair: drain in sight and open, water mark, soil above the sill, grate or cover, a bedroom window that could not open under a cover.',
      why: 'A well that fills in a storm comes in at the window.',
      evidence: choice({
        none: 'none here, or dry and open',
        filled: 'soil, leaves or water marks',
        no_drain: 'no drain in sight',
        several: 'several of these',
      }),
      basis: EXTRA,
      minutes: 0.5,
      references: [irc('R310.2.3: window wells of escape openings'), trade('window wells')],
    }),
    step({
      key: 'old-wells-cisterns-and-holes',
      title: 'Unused wells, cisterns and covered holes',
      applies: {
        any: [
          { fact: 'waterSource', compare: 'is', value: 'private_well' },
          { fact: 'yearBuilt', compare: 'below', value: 1940 },
          { fact: 'waste', compare: 'is', value: 'septic' },
        ],
      },
      instruction:
        'Before walking the yard look for pipes standing up, round slabs, wooden lids, sunken circles and pump bases. Report what you see; lift and step on nothing.',
      why: 'A rotten cistern lid has killed people, and an unused well must be known before a sale.',
      caution: 'Keep off lids, slabs and sunken ground. Mark the place to your partner and to those at the house, and keep children away.',
      evidence: choice({ none: 'none seen', signs: 'signs of an unused well or cistern', open: 'open or unsafe: people told' }),
      basis: EXTRA,
      minutes: 1,
      references: [
        {
          title: 'Wisconsin Administrative Code',
          section: 'NR 812: unused wells are looked for at a transfer (secondary copy)',
          edition: 'online text, edition date not noted',
          status: 'found',
        },
      ],
    }),
    step({
      key: 'old-paint-outside',
      title: 'Peeling paint outside, house built before 1978',
      applies: { fact: 'yearBuilt', compare: 'below', value: 1978 },
      instruction:
        'Note where paint peels, chips or lies on the soil: window troughs, porch floors, soffits. Say "paint of a house of this age may hold lead"; take no sample.',
      why: 'Lead dust from window troughs and soil is what harms small children.',
      caution: 'Do not scrape, sand or pick. Wash hands before eating.',
      evidence: choice({ sound: 'paint sound as seen', peeling: 'peeling or chips on the ground', covered: 'covered by siding' }),
      basis: EXTRA,
      minutes: 1,
      references: [cfr('40 CFR 745: housing built before 1978')],
    }),
  ],
};
