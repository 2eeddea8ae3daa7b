// Fireplace and stove.
import type { Procedure } from '@backsight/domain/procedures/step';
import { burns, choice, duty, EXTRA, has, step, trade } from './shorthand.ts';

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
    step({
      key: 'flue-seen-from-firebox',
      title: 'Flue as far as it is seen from the firebox',
      per: 'fireplace',
      applies: has('fireplace'),
      kit: ['flashlight', 'camera'],
      after: ['fireplace-damper'],
      instruction:
        'With cold ashes and the damper open shine up: thick black layers, gaps between tiles, light from the side, a bird. Say how far it was seen. A sweep with a camera sees the rest.',
      why: 'A finger of black glaze burns like the wood it came from.',
      caution: 'Glasses on, mouth shut, face aside. A flue that smells of gas: step back, no light switch, call from outside.',
      evidence: choice({
        clean: 'clean as far as seen',
        layers: 'thick layers or glaze',
        gaps: 'gaps or broken tiles',
        blocked: 'blocked or nest',
        not_seen: 'not seen',
      }),
      basis: duty('SOP-170'),
      minutes: 0.5,
    }),
    step({
      key: 'gas-fireplace-or-log',
      title: 'Gas fireplace or gas log',
      per: 'fireplace',
      applies: { all: [has('fireplace'), burns('natural_gas', 'propane')] },
      instruction:
        'If it burns as found look at flame, soot on glass, smell, and where it vents. If it has a wall switch or remote and its pilot burns, start it once and stop it. A pilot that is out stays out.',
      why: 'An unvented log puts all that it burns into the room.',
      caution: 'Glass burns skin in a second. Gas smell: leave, touch no switch, call from outside.',
      evidence: choice({
        runs: 'starts, clean flame',
        soot: 'soot, smell or odd flame',
        off: 'pilot out: left off',
        no_gas: 'burns wood only',
      }),
      basis: duty('SOP-170'),
      minutes: 0.5,
    }),
  ],
};
