// Electrical: service, panels, branch wiring, receptacles and ground-fault devices.
import type { Procedure } from '@backsight/domain/procedures/step';
import { burns, cfr, choice, duty, EXTRA, nec, note, photo, step, trade } from './shorthand.ts';

export const ELECTRICAL: Procedure = {
  key: 'electrical',
  title: 'Electrical',
  system: 'electrical',
  steps: [
    step({
      key: 'service-entrance',
      title: 'Service entrance conductors',
      kit: ['camera'],
      instruction:
        'From the ground follow the conductors from pole or pedestal to the meter: frayed covering, branches on the line, a mast that leans, ' +
        'a loose meter box, height above walk, drive and roof. Photograph the mast or the riser.',
      why: 'Nothing in the house protects these conductors: they are always live.',
      caution:
        'Keep yourself, ladder and poles 10 ft away from overhead conductors. A line that hangs or is down: stay away, keep others away, call 911 and the utility.',
      evidence: choice({ sound: 'sound as seen', worn: 'covering, mast or clearance poor', not_seen: 'not visible' }),
      basis: duty('SOP-151'),
      minutes: 1,
      references: [nec('230.24: clearances', 'edition not noted'), cfr('29 CFR 1910.333(c)(3): 10 ft to 50 kV')],
    }),
    step({
      key: 'service-equipment-and-grounding',
      title: 'Service equipment, grounding and main device',
      kit: ['flashlight', 'camera'],
      instruction:
        'Look at the main disconnect and its enclosure, the grounding conductor to rod or water pipe and its clamp, and the bond around the ' +
        'water meter. Touch no conductor; do not switch the main.',
      why: 'A missing ground makes every other fault more dangerous.',
      caution:
        'Look before you stand there: no wet floor, one hand free, nothing metal in hand. Do not touch a grounding conductor that is loose: it can carry current.',
      evidence: choice({
        complete: 'grounding and main device seen',
        loose: 'loose, corroded or cut',
        not_found: 'grounding not found',
        not_seen: 'not visible',
      }),
      basis: duty('SOP-152'),
      minutes: 2,
    }),
    step({
      key: 'panel-enclosure-not-live',
      title: 'Panel enclosure: not live, fit to open',
      per: 'panel',
      place: 'panel',
      sequence: 'panel-cover',
      kit: ['voltage_tester'],
      after: ['ask-before-power'],
      instruction:
        'Look, smell and listen: rust, scorching, buzzing, water. Prove the tester on a known live receptacle, touch it to the enclosure, prove ' +
        'it again. Tell your partner that you are about to open.',
      why: 'An enclosure that has become live kills the one who puts a hand on it.',
      caution:
        'Dry floor, safety glasses, one hand. If the tester shows voltage, or the panel is wet, hot, scorched or buzzing, leave the cover on, keep people ' +
        'away and tell those in the house. No tool inside, ever.',
      evidence: choice({
        open: 'not live, fit to open',
        leave: 'cover stays on: not safe',
        blocked: 'cover stays on: blocked, sealed or painted',
      }),
      basis: EXTRA,
      minutes: 1,
      references: [trade('prove the tester, test, prove it again')],
    }),
    step({
      key: 'panel-interior',
      title: 'Panel inside: conductors and overcurrent devices',
      per: 'panel',
      place: 'panel',
      sequence: 'panel-cover',
      after: ['panel-enclosure-not-live'],
      kit: ['flashlight', 'camera'],
      instruction:
        'Hold the cover with both hands, ease it off level, set it aside. Look without touching: wire size against breaker, two wires under ' +
        'one screw, scorched insulation, open knockouts, aluminum branch wires, missing bushings. Photograph each fault.',
      why: 'Most electrical faults of a house can be seen here and nowhere else.',
      caution:
        'The line side is live even with the main off. Nothing goes inside: no finger, no screwdriver, no probe. Nobody talks to the one at the panel.',
      evidence: choice({
        compatible: 'conductors and devices compatible as seen',
        fault: 'faults noted',
        aluminum: 'aluminum branch wiring seen',
        not_opened: 'not opened',
      }),
      basis: duty('SOP-155'),
      minutes: 3,
      references: [
        {
          title: 'U.S. Consumer Product Safety Commission, Publication 516',
          section: 'homes and circuits of 1965 to 1973 (secondary copy)',
          edition: 'edition not noted',
          status: 'found',
        },
      ],
    }),
    step({
      key: 'panel-inside-photo',
      title: 'Panel with its cover off',
      place: 'panel',
      per: 'panel',
      sequence: 'panel-cover',
      after: ['panel-interior'],
      kit: ['camera'],
      instruction:
        'Photograph the whole panel with the cover off, from arm length, then the label of the door. Cover left on: say why there is no photo.',
      why: 'Who worked in the panel after us is told apart by this picture alone.',
      caution: 'Camera and hands stay outside: the line side is live even with the main off. No strap that can swing in.',
      evidence: photo('the whole panel, cover off'),
      basis: EXTRA,
      minutes: 0.5,
      references: [trade('panels photographed with the cover off')],
    }),
    step({
      key: 'panel-cover-back',
      title: 'Panel cover back on',
      per: 'panel',
      place: 'panel',
      sequence: 'panel-cover',
      after: ['panel-interior', 'panel-inside-photo'],
      instruction:
        'Set the cover back level so that no breaker is pushed, put back every screw that was there, blunt-ended ones only. See that every breaker stands as it was found.',
      why: 'A breaker nudged by the cover leaves a room dark after we have gone.',
      caution: "Watch the cover's edge: it must touch no live part. If a screw would pinch a wire, leave it out and report it.",
      evidence: { kind: 'confirm' },
      basis: EXTRA,
      minutes: 1,
      references: [trade('closing a panel')],
    }),
    step({
      key: 'old-wiring-signs',
      title: 'Signs of old or aluminum branch wiring',
      applies: { fact: 'yearBuilt', compare: 'below', value: 1974 },
      kit: ['flashlight'],
      instruction:
        'In basement and attic look for porcelain knobs and tubes, cloth-covered cable and fuse panels; at the panel for aluminum branch wires. Touch none of it.',
      why: 'Wiring of these years is often still live behind newer devices, and insurers ask.',
      caution: 'Old insulation crumbles when it is moved: look only.',
      evidence: choice({
        none: 'none seen',
        knob_tube: 'knob-and-tube',
        aluminum: 'aluminum branch wiring',
        fuses: 'fuse panel',
        several: 'several of these',
      }),
      basis: EXTRA,
      minutes: 1,
      references: [trade('years of old wiring')],
    }),
    step({
      key: 'lights-switches-receptacles',
      title: 'Lights, switches and receptacles, a representative number',
      kit: ['receptacle_tester'],
      after: ['ask-before-power'],
      instruction:
        'In each room, the garage and on the outside walls operate the switches and try at least one receptacle. Unplug nothing that works; ' +
        'turn each switch back as it was. Note warm plates, loose boxes, flicker and dead devices.',
      why: 'The rule asks for a representative number; one in each room is ours.',
      caution: 'Do not touch a broken plate, a scorched receptacle or anything with wet hands or on a wet floor.',
      evidence: { kind: 'count', of: 'rooms and places tried' },
      basis: duty('SOP-156'),
      minutes: 4,
      references: [
        { title: 'Florida Administrative Code', section: '61-30.101: one per room for repeated parts', edition: '2013', status: 'found' },
      ],
    }),
    step({
      key: 'receptacle-polarity-and-grounding',
      title: 'Polarity and grounding of receptacles',
      kit: ['receptacle_tester'],
      after: ['ask-before-power'],
      instruction:
        'Test the receptacles within 6 ft of plumbing fixtures, in garage and carport, and outside. Note reversed, ungrounded and open ones ' +
        "with the room. Do not press the tester's ground-fault button in this step.",
      why: 'A reversed or open ground is invisible and waits for a wet hand.',
      caution: 'A lamp pattern that makes no sense: pull the tester out, touch nothing metal nearby, and report it.',
      evidence: note('receptacles that are reversed, open or ungrounded, or none'),
      basis: duty('SOP-157'),
      minutes: 3,
    }),
    step({
      key: 'service-rating',
      title: 'Service: amperes, volts, overhead or underground',
      kit: ['flashlight'],
      instruction:
        'Read the rating of the main device and, where visible, of the service equipment and conductors; the smallest counts. State voltage and ' +
        'whether the service comes overhead or underground. What cannot be read is reported as not determined, never guessed.',
      why: "The rule asks that the client be told the service's size.",
      evidence: note('amperes, volts, overhead or underground'),
      basis: duty('SOP-154'),
      minutes: 1,
    }),
    step({
      key: 'panel-location-and-space',
      title: 'Panel: where it is, space in front',
      per: 'panel',
      place: 'panel',
      kit: ['camera'],
      instruction:
        'State where each main or distribution panel is. Note clear space in front, labels, and panels in baths, closets or above stairs. Move no belongings.',
      why: 'In an emergency somebody must find it and reach it.',
      evidence: note('place; what is in front of it'),
      basis: duty('SOP-153'),
      minutes: 1,
      references: [nec('110.26(A): 36 in deep, 30 in wide, 6 ft 6 in high', 'edition not noted')],
    }),
    step({
      key: 'ground-fault-where-expected',
      title: 'Places that should have ground-fault protection',
      instruction:
        'Compare bathrooms, garage, outside, crawl space, unfinished basement, kitchen counters, sinks and laundry with the year in which each ' +
        'came into the code, and name places without a protected receptacle as a safety improvement, or as missing where the date of building called for it.',
      why: 'Which places need it depends on the year; clients read "missing" as a fault.',
      evidence: note('places without protection, or none'),
      basis: EXTRA,
      minutes: 2,
      references: [
        nec('210.8(A): ten places (secondary copy)', '2014', 'found'),
        nec('first years by place', 'cycle history 1971 to 2014'),
      ],
    }),
    step({
      key: 'bonding-of-metal-pipes',
      title: 'Bonding of gas and water pipes',
      applies: burns('natural_gas', 'propane'),
      kit: ['flashlight'],
      instruction:
        'Look for the bonding clamp on metal water pipe and on gas pipe, above all where the gas pipe is yellow flexible steel tubing. Clamp tight, not on paint, wire whole. What is hidden is not determined.',
      why: 'Thin tubing without a bond can be holed by a lightning surge.',
      evidence: choice({ seen: 'bonds seen', missing: 'no bond found', loose: 'loose or cut', not_seen: 'not visible' }),
      basis: EXTRA,
      minutes: 0.5,
      references: [nec('250.104: bonding of piping', 'edition not noted')],
    }),
    step({
      key: 'ground-fault-trip-reset',
      title: 'Ground-fault device: trip and reset',
      per: 'ground_fault_device',
      kit: ['receptacle_tester'],
      after: ['ask-before-power'],
      instruction:
        'Trip the device with its own button, see that it has cut the power at its own receptacle, and reset it. Name the device by its room. ' +
        'Without an equipment ground only its own button says anything: a plug-in tester does not.',
      why: 'A device that does not trip looks like protection and is none.',
      caution:
        'Not with a medical device anywhere in its reach, nor until the answers about aquarium, freezer, sump and computers are recorded. Dry hands, dry floor.',
      evidence: choice({
        trips_resets: 'trips and resets',
        no_trip: 'does not trip',
        no_reset: 'trips, does not reset',
        dead: 'dead as found',
      }),
      basis: duty('SOP-158'),
      minutes: 1,
      references: [
        {
          title: 'UL 943, Ground-Fault Circuit-Interrupters',
          section: 'Class A: 4 to 6 mA (secondary copy)',
          edition: 'edition not noted',
          status: 'found',
        },
        trade('own button or tester'),
      ],
    }),
    step({
      key: 'arc-fault-devices',
      title: 'Arc-fault devices',
      applies: { fact: 'yearBuilt', compare: 'atLeast', value: 1999 },
      after: ['ask-before-power'],
      instruction:
        'Count the breakers and receptacles with an arc-fault button. Press the button only in a vacant house or where the occupant has agreed room by room; reset each at once. Otherwise record that they were looked at only.',
      why: 'A device that never trips protects no bedroom.',
      caution:
        'Each press makes rooms dark: not with a medical device in reach, not with a computer or aquarium running. Dry hands, nothing inside the panel.',
      evidence: choice({
        trip: 'pressed: trip and reset',
        looked: 'looked at only',
        fails: 'one or more does not trip or reset',
        none: 'none found',
      }),
      basis: EXTRA,
      minutes: 1,
      references: [nec('210.12: bedrooms since the 1999 edition', 'cycle history 1999 to 2014')],
    }),
    step({
      key: 'aluminum-branch-connections',
      title: 'Aluminum branch wiring: warm plates and marked devices',
      applies: {
        all: [
          { fact: 'yearBuilt', compare: 'atLeast', value: 1962 },
          { fact: 'yearBuilt', compare: 'atMost', value: 1975 },
        ],
      },
      after: ['ask-before-power', 'panel-interior'],
      instruction:
        'If aluminum branch wires were seen or may be there: lay the back of a hand on plates in use, look for browned plates, flicker and smell. Take no plate off. Report that an electrician judges the connections.',
      why: 'These connections fail by slow heating behind a plate that looks new.',
      caution:
        'A plate that is hot, buzzing or scorched: touch it no more, unplug nothing, have the circuit left alone and tell the occupant now.',
      evidence: choice({
        cool: 'no warm or browned plate found',
        warm: 'warm, browned or flickering',
        none: 'no aluminum branch wiring seen',
      }),
      basis: EXTRA,
      minutes: 1,
      references: [
        {
          title: 'U.S. Consumer Product Safety Commission, Publication 516',
          section: 'homes and circuits of 1965 to 1973 (secondary copy)',
          edition: 'edition not noted',
          status: 'found',
        },
      ],
    }),
    step({
      key: 'fuses-and-their-sizes',
      title: 'Fuses and their sizes',
      applies: { fact: 'yearBuilt', compare: 'below', value: 1965 },
      kit: ['flashlight', 'camera'],
      instruction:
        'Where plug fuses are in use read the size of each against its wire as far as both can be seen with the door open. Note fuses of 25 or 30 A on small wires, and adapters that let a larger one in.',
      why: 'A fuse too large lets the wire be the fuse.',
      caution: 'Look only: unscrew no fuse, pull no block. The clips behind are live.',
      evidence: choice({
        none: 'no fuses in use',
        suits: 'sizes suit as seen',
        large: 'larger than the wire',
        not_read: 'could not be read',
      }),
      basis: EXTRA,
      minutes: 0.5,
      references: [trade('fuse panels before about 1960 to 1965')],
    }),
    step({
      key: 'more-than-one-panel',
      title: 'Second panel: neutrals and grounds apart',
      applies: { fact: 'panels', compare: 'atLeast', value: 2 },
      after: ['panel-interior'],
      kit: ['flashlight'],
      instruction:
        'In each panel after the main one look without touching whether neutral and grounding wires lie on bars of their own, and whether four conductors feed it. Note what feeds which panel.',
      why: 'Joined again behind the main panel, current comes home over pipes and enclosures.',
      caution: 'Only where the cover came off safely. Nothing goes inside: no finger, no tool.',
      evidence: choice({ apart: 'apart as seen', joined: 'joined in a second panel', not_opened: 'not opened, or not visible' }),
      basis: EXTRA,
      minutes: 1,
      references: [nec('250.24 and 250.142: where neutral and ground are joined', 'edition not noted')],
    }),
  ],
};
