// Second revision of the ground-fault steps: what the device feeds is found, and is live again before the pair moves on.
import type { Question } from '@backsight/domain/procedures/questions';
import type { Step } from '@backsight/domain/procedures/step';
import { choice, duty, EXTRA, nec, step, trade } from './shorthand.ts';

const SEQUENCE = 'ground-fault-test';
const FOLLOWED_LOADS =
  'Not with a medical device anywhere in its reach, nor until the answers about aquarium, freezer, sump and computers are recorded. ';

/** Takes the place of the step `ground-fault-trip-reset` of the first revision; the two counts are new steps derived from it. */
export const GROUND_FAULT_STEPS_REVISED: readonly Step[] = [
  step({
    key: 'live-receptacles-before',
    derivedFrom: 'ground-fault-trip-reset',
    title: 'Receptacles live before the test',
    per: 'ground_fault_device',
    sequence: SEQUENCE,
    kit: ['receptacle_tester'],
    after: ['ask-before-power'],
    instruction:
      'Note each live receptacle in the rooms that this device may feed: baths on every floor, garage, outside, unfinished basement, crawl ' +
      'space, kitchen. Count them and name the rooms in the remarks. What cannot be unplugged, is behind furniture or locked is not counted: ' +
      'record it so, and look at its appliance now (light, display, sound).',
    why: 'Nobody knows the circuit before the test: a garage freezer may hang on a bathroom device two floors away.',
    caution: 'Do not pull the plug of a running appliance to make room for the tester. Dry hands, dry floor.',
    evidence: { kind: 'count', of: 'receptacles live' },
    basis: EXTRA,
    minutes: 1,
    references: [trade('counting live receptacles before a test')],
  }),
  step({
    key: 'ground-fault-trip-reset',
    title: 'Ground-fault device: trip and reset',
    per: 'ground_fault_device',
    sequence: SEQUENCE,
    kit: ['receptacle_tester'],
    after: ['ask-before-power', 'live-receptacles-before'],
    instruction:
      'Trip the device with its own button. Go through the receptacles just noted: those that went dead are what it protects; write down ' +
      'which. Those still live are not protected by it: that is reported where the date of building calls for protection, it is no failed test. Reset ' +
      'the device. Without an equipment ground only its own button says anything: a plug-in tester does not.',
    why: 'A device that does not trip looks like protection and is none; and what it feeds is known only while it is tripped.',
    caution: FOLLOWED_LOADS + 'Keep the dead time short. Dry hands, dry floor.',
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
      nec('210.8(A): ten places (secondary copy)', '2014', 'found'),
      trade('own button or tester'),
    ],
  }),
  step({
    key: 'live-receptacles-after',
    derivedFrom: 'ground-fault-trip-reset',
    title: 'Every receptacle that was live is live again',
    per: 'ground_fault_device',
    sequence: SEQUENCE,
    kit: ['receptacle_tester', 'flashlight'],
    after: ['ground-fault-trip-reset'],
    instruction:
      'Test the same receptacles again and count the live ones: the two counts must be equal. What could not be reached is recorded so and its ' +
      "appliance is looked at: the freezer's and refrigerator's light, display or sound, the sump pump's indicator. If one stays dead, look for another " +
      'device that our test tripped and reset that one only. If it is still dead, tell the occupant before you leave, call the office, report it.',
    why: 'A reset button that clicks is no proof of power downstream. A dead receptacle that nobody looked at thaws a freezer or floods a basement.',
    caution: 'Do not reset a breaker or device that was off as found. A second device may belong to a bath in use: knock.',
    evidence: { kind: 'count', of: 'receptacles live', mustMatch: 'live-receptacles-before' },
    basis: EXTRA,
    minutes: 1,
    references: [trade('power restored downstream after a test')],
  }),
];

/** What everybody is asked before acknowledging it. */
export const GROUND_FAULT_QUESTIONS: readonly Question[] = [
  {
    key: 'freezer-behind-shelves',
    stepKey: 'live-receptacles-after',
    text: 'The garage receptacle stands behind shelves and cannot be reached. What is recorded after the reset?',
    options: [
      { key: 'nothing', label: 'Nothing: it was not counted' },
      { key: 'appliance', label: 'That it was not reached, and that its appliance was looked at' },
      { key: 'assumed', label: 'That it is live, because the device was reset' },
    ],
    right: 'appliance',
  },
  {
    key: 'still-live-while-tripped',
    stepKey: 'ground-fault-trip-reset',
    text: 'While the device is tripped, one receptacle in the bath stays live. What is that?',
    options: [
      { key: 'failed', label: 'A failed test of the device' },
      { key: 'not_protected', label: 'A receptacle that it does not protect: reported where the date of building calls for it' },
    ],
    right: 'not_protected',
  },
];
