// Arrival and safety: what is settled at the door before anything in the house is touched.
import type { Procedure } from '@backsight/domain/procedures/step';
import { choice, CONFIRM, EXTRA, note, step, trade } from './shorthand.ts';

export const ARRIVAL: Procedure = {
  key: 'arrival',
  title: 'Arrival and safety',
  system: 'arrival',
  steps: [
    step({
      key: 'adult-present-or-vacant',
      title: 'An adult is present, or the house is vacant',
      instruction:
        'Knock, say who you are and wait. Enter only if an adult lets you in or stays, or the house is vacant and we were given the ' +
        'way in. If only a minor is at home, stay outside and call the office.',
      why: 'Nobody of ours is ever alone in a house with a minor, and nobody can say later that we came in uninvited.',
      evidence: choice({
        adult: 'adult present',
        vacant: 'vacant, way in as agreed',
        opener: 'opened by an agent or key holder, who stays',
      }),
      basis: EXTRA,
      who: 'first',
      minutes: 1,
      references: [trade('entering a home')],
    }),
    step({
      key: 'animals-secured',
      title: 'Animals are secured',
      who: 'first',
      style: 'read_then_do',
      after: ['adult-present-or-vacant'],
      instruction:
        'Ask which animals there are and where. Have the occupant shut them in, and agree which doors stay closed. Do not handle an ' +
        'animal yourself. In a vacant house look and listen before you go in.',
      why: 'A bite, a dog on the road or a cat shut into the attic spoils a visit for everybody.',
      evidence: CONFIRM,
      basis: EXTRA,
      minutes: 1,
      references: [trade('animals in the house')],
    }),
    step({
      key: 'air-on-entering',
      title: 'Carbon monoxide on entering',
      kit: ['carbon_monoxide_meter'],
      instruction:
        'Switch the meter on outside and let it settle at zero. Carry it in, and read it after two minutes on the lowest floor that ' +
        'has a fuel-burning appliance, or in the hall if none has. Keep it on for the whole visit.',
      why: 'It protects the pair and whoever lives there, and a spilling vent is often first seen by the meter.',
      caution:
        'At 70 ppm, or with any headache or dizziness: everybody out into fresh air at once, tell those in the house, call 911 from outside. ' +
        'From 9 ppm on open up, find out why, and do not stay.',
      evidence: {
        kind: 'reading',
        unit: 'ppm',
        expectedFrom: 0,
        expectedTo: 9,
        hint: 'a hint only: anything above 0 indoors deserves its reason',
      },
      basis: EXTRA,
      minutes: 1,
      references: [
        {
          title: 'UL 2034, Carbon Monoxide Alarms',
          section: 'alarm at 70 ppm within 60 to 240 minutes',
          edition: 'edition not noted',
          status: 'from memory',
        },
        trade('9 and 70 ppm for the crew'),
      ],
    }),
    step({
      key: 'ask-before-power',
      title: 'What must not lose power',
      who: 'first',
      style: 'read_then_do',
      after: ['adult-present-or-vacant'],
      instruction:
        'Ask the occupant, before any power is interrupted: is there a medical device, aquarium, freezer or second refrigerator, sump ' +
        'pump, alarm panel or computer that must not go dark, and where? In a vacant house look for them. Write each down with its place. ' +
        'A medical device is never cut off; for a computer wait until it is shut down.',
      why: "Some of our tests cut power for a moment. What is lost then may be food, data, or somebody's breath.",
      evidence: note('each device and where it stands, or none'),
      basis: EXTRA,
      minutes: 2,
      references: [trade('loads that must not lose power')],
    }),
    step({
      key: 'recording-and-private-things',
      title: 'Recording devices and private things',
      who: 'first',
      after: ['adult-present-or-vacant'],
      instruction:
        'Ask whether cameras or microphones are running, and speak accordingly. Note rooms in which weapons, medicine, papers or ' +
        'valuables lie open: touch nothing and keep them out of every photo.',
      why: 'What we say to one another about the house is for the client alone, and a photo of private things cannot be taken back.',
      evidence: choice({ none: 'none running that we know of', running: 'running', not_said: 'nobody could say' }),
      basis: EXTRA,
      minutes: 1,
      references: [trade('privacy in an occupied home')],
    }),
    step({
      key: 'utilities-as-found',
      title: 'What is on and what is off, as found',
      after: ['adult-present-or-vacant'],
      instruction:
        'Note whether water, gas and electricity are on, whether the house is winterized, and every main valve, breaker, pilot and ' +
        'disconnect found off. What was found off stays off: it is reported, what it feeds is not inspected, and a return visit is offered.',
      why: 'We do not know why somebody turned it off. Turning it on can flood, burn or shock.',
      evidence: note('what was found off, or all on'),
      basis: EXTRA,
      minutes: 2,
      references: [trade('utilities found off')],
    }),
    step({
      key: 'weather-outside',
      title: 'Outdoor temperature and weather',
      kit: ['thermometer'],
      instruction:
        'Read the outdoor air in the shade, away from walls and vents. Note rain, snow or ice in the remarks, and ask whether the last ' +
        'night was colder than 60 F.',
      why: 'It decides whether cooling or a heat pump may be run and whether anybody goes up a ladder.',
      evidence: { kind: 'reading', unit: 'F', hint: 'no cooling at or after less than 60 to 65 F; no heat pump in heat above 65 to 70 F' },
      basis: EXTRA,
      minutes: 1,
      references: [trade('temperature limits for running equipment')],
    }),
  ],
};
