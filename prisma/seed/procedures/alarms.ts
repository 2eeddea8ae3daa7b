// Smoke and carbon monoxide alarms.
import type { Procedure } from '@backsight/domain/procedures/step';
import { choice, duty, EXTRA, irc, step } from './shorthand.ts';

export const ALARMS: Procedure = {
  key: 'alarms',
  title: 'Smoke and carbon monoxide alarms',
  system: 'alarms',
  steps: [
    step({
      key: 'smoke-alarms',
      title: 'Smoke alarms: where, power, test button, age',
      after: ['ask-before-power'],
      instruction:
        'Tell the occupant that it will be loud. Look in each bedroom, outside the bedrooms and on each story with the basement. Read the date on the back edge if it ' +
        'can be seen. Press the button of those that are not part of a monitored system; those are only looked at.',
      why: 'An alarm older than ten years or without power protects nobody.',
      caution: 'Never press a button of a monitored system: it calls the fire department. Use a stick, not a chair.',
      evidence: choice({
        good: 'in each place, sound',
        missing: 'missing in some places',
        dead: 'some without sound',
        old: 'some older than 10 years',
        monitored: 'monitored: looked at only',
        several: 'several of these',
      }),
      basis: duty('SOP-159'),
      minutes: 2,
      references: [irc('R314: places; NFPA 72: 10 years')],
    }),
    step({
      key: 'carbon-monoxide-alarms',
      title: 'Carbon monoxide alarms',
      instruction:
        'Look outside each sleeping area and on each story with a fuel-burning appliance or an attached garage. Name the places without one.',
      why: "The house's own alarm stays after our meter has left.",
      evidence: choice({
        good: 'in each place',
        missing: 'missing in some places',
        old: 'past the date on them',
        not_needed: 'no fuel appliance, no attached garage',
      }),
      basis: EXTRA,
      minutes: 1,
      references: [
        irc('R315: outside each sleeping area'),
        { title: 'Wisconsin Statutes', section: '101.647', edition: 'edition not noted', status: 'from memory' },
      ],
    }),
  ],
};
