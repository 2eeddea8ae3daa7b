// Fireplace and stove.
import type { Procedure } from '@backsight/domain/procedures/step';
import { choice, duty, EXTRA, has, step, trade } from './shorthand.ts';

export const FIREPLACE: Procedure = {
  key: 'fireplace',
  title: 'Fireplace and stove',
  system: 'fireplace',
  steps: [
    step({
      key: 'fireplace-and-hearth',
      title: 'Firebox, hearth and distance to what burns',
      per: 'fireplace',
      applies: has('fireplace'),
      kit: ['flashlight', 'camera'],
      instruction:
        'With cold ashes only: look at firebox, hearth, trim, stove legs and connector. Measure from the stove to the nearest wood. Light no fire and no pilot. The ' +
        'flue inside is not seen: advise a chimney sweep before first use.',
      why: 'Wood that is heated for years takes fire at ever lower heat.',
      caution: 'Ashes hold embers for days: no hand in, no vacuum. A gas log found off stays off.',
      evidence: choice({
        sound: 'sound as seen',
        cracked: 'cracked or open joints',
        close: 'too close to wood',
        in_use: 'hot or in use: not looked at',
      }),
      basis: duty('SOP-170'),
      minutes: 2,
    }),
    step({
      key: 'fireplace-damper',
      title: 'Damper moved and put back',
      per: 'fireplace',
      applies: has('fireplace'),
      kit: ['flashlight'],
      after: ['fireplace-and-hearth'],
      instruction: 'With cold ashes move the damper through its way and put it back as it was. Do not force it.',
      why: 'A damper left open by us costs heat; one left closed fills the room with smoke.',
      caution: 'Glasses on, face aside: soot and nests fall.',
      evidence: choice({ moves: 'moves and closes', stuck: 'stuck or broken', none: 'no damper', not_moved: 'not moved: in use' }),
      basis: EXTRA,
      minutes: 1,
      references: [trade('dampers')],
    }),
  ],
};
