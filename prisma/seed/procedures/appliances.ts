// Built-in kitchen appliances: run for a short time by their own controls; Wisconsin's rule does not ask for it, clients do.
import type { Procedure } from '@backsight/domain/procedures/step';
import { choice, EXTRA, step, trade } from './shorthand.ts';

export const APPLIANCES: Procedure = {
  key: 'appliances',
  title: 'Built-in kitchen appliances',
  system: 'appliances',
  steps: [
    step({
      key: 'dishwasher-run',
      title: 'Dishwasher run',
      per: 'kitchen',
      instruction:
        'Look in for dishes, rust and standing water, start the shortest cycle, look below the sink and along the front for water while it fills and drains, and open it only when it has stopped. Note a drain hose without high loop or air gap.',
      why: 'It leaks onto a floor that nobody sees until it is soft.',
      evidence: choice({
        runs: 'fills, drains, dry below',
        leaks: 'leaks',
        fails: 'does not run or drain',
        not_run: 'not run: full or water off',
      }),
      basis: EXTRA,
      minutes: 1,
      references: [
        {
          title: 'North Carolina Administrative Code, as a yardstick only',
          section: '11 NCAC 08 .1115',
          edition: 'edition not noted',
          status: 'from memory',
        },
      ],
    }),
    step({
      key: 'range-oven-and-tip-guard',
      title: 'Range and oven; guard against tipping',
      per: 'kitchen',
      instruction:
        'Look into the oven first: empty it is safe, full it is not run. Try each burner and the oven for a moment, turn all off and look twice. Pull the range gently at its back: a guard holds it.',
      why: 'A child on an open oven door tips a range that is not held.',
      caution:
        'Nothing on or in it. Gas that does not light in four seconds: off, air the room. Do not leave the room while anything is on.',
      evidence: choice({
        works: 'works, held against tipping',
        not_held: 'not held against tipping',
        fails: 'a burner or the oven fails',
        several: 'several of these',
        not_run: 'not run: in use, or gas or power off',
      }),
      basis: EXTRA,
      minutes: 1,
      references: [
        {
          title: 'Texas Administrative Code, as a yardstick only',
          section: '22 TAC 535.232',
          edition: 'edition not noted',
          status: 'from memory',
        },
        trade('guards against tipping'),
      ],
    }),
    step({
      key: 'microwave-disposer-compactor',
      title: 'Built-in microwave, disposer and compactor',
      per: 'kitchen',
      instruction:
        'Heat a cup of water for half a minute in a built-in microwave. Look into the disposer with the light, run it with water for a moment, look below. Run an empty compactor once. What stands on the counter goes with the seller.',
      why: 'They are named in many offers to purchase, so clients ask.',
      caution: 'No hand into a disposer or compactor, not even with the switch off.',
      evidence: choice({ work: 'those here work', fails: 'one fails or leaks', not_run: 'not run: power or water off' }),
      basis: EXTRA,
      minutes: 1,
      references: [trade('built-in appliances')],
    }),
  ],
};
