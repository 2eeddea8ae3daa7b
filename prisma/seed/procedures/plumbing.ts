// Plumbing: supply, drains, fixtures, gas piping, and the limits where water is private.
import type { Procedure } from '@backsight/domain/procedures/step';
import { burns, choice, CONFIRM, duty, EXTRA, note, step, trade } from './shorthand.ts';

const TEXAS_PLUMBING = {
  title: 'Texas Administrative Code, as a yardstick only',
  section: '22 TAC 535.231',
  edition: 'edition not noted',
  status: 'found',
} as const;

export const PLUMBING: Procedure = {
  key: 'plumbing',
  title: 'Plumbing',
  system: 'plumbing',
  steps: [
    step({
      key: 'supply-pipes',
      title: 'Supply pipes: material, supports, leaks, cross connections',
      kit: ['flashlight', 'camera'],
      instruction:
        'Follow the visible pipes from the entry. Name the material of entry and of branches (lead and galvanized by look and a magnet). Note ' +
        'corrosion, drips, missing supports and hoses that hang into water. Turn no valve.',
      why: 'Pipe material decides what the client pays in ten years; a drip decides what he pays this month.',
      evidence: note('materials; leaks, supports, cross connections'),
      basis: duty('SOP-138'),
      minutes: 2,
      references: [trade('years of pipe materials')],
    }),
    step({
      key: 'water-pressure',
      title: 'Static water pressure',
      kit: ['water_pressure_gauge'],
      instruction:
        'With no water running screw the gauge onto a hose faucet or the laundry faucet, open it, read, close it, take the gauge off. In frost use the laundry faucet.',
      why: 'High pressure bursts hoses; low pressure is a complaint in the first week.',
      evidence: {
        kind: 'reading',
        unit: 'psi',
        expectedFrom: 40,
        expectedTo: 80,
        hint: 'a hint only: above 80 a reducing valve is usually wanted',
      },
      basis: EXTRA,
      minutes: 1,
      references: [TEXAS_PLUMBING],
    }),
    step({
      key: 'bathroom-fixtures',
      title: 'Bathroom: fixtures run, drained and looked under',
      per: 'bathroom',
      kit: ['flashlight', 'moisture_meter'],
      instruction:
        'Run sink, tub and shower hot and cold, flush the toilet, rock it gently with a knee. Fill the sink to the overflow and let it go. Look ' +
        'below while it drains, then at the ceiling underneath. Stay in the room while water runs; close every faucet. Do not turn a supply stop.',
      why: 'A drain leaks when it is full and moving, not when it is dry.',
      evidence: choice({
        good: 'runs and drains, no leak seen',
        slow: 'drains slowly',
        leak: 'leak seen',
        loose: 'fixture loose',
        several: 'several of these',
      }),
      basis: duty('SOP-138', 'SOP-143'),
      minutes: 4,
    }),
    step({
      key: 'functional-flow',
      title: 'Two fixtures together',
      style: 'read_then_do',
      after: ['bathroom-fixtures'],
      instruction:
        'On the highest floor run the shower, open the sink and flush the toilet. Watch whether the shower falls off and whether drains gurgle. Close all.',
      why: 'One faucet alone always seems to run well.',
      evidence: choice({ steady: 'flow stays useful', weak: 'flow falls off', gurgles: 'drain gurgles or backs up' }),
      basis: duty('SOP-138'),
      minutes: 1,
      references: [TEXAS_PLUMBING],
    }),
    step({
      key: 'kitchen-sink',
      title: 'Kitchen sink and what hangs on it',
      per: 'kitchen',
      kit: ['flashlight'],
      instruction:
        'Run hot and cold, fill and release each bowl, look below at trap, hoses and cabinet floor. Run the disposal for a moment with water, after looking in.',
      why: 'Kitchen cabinets hide the slow leak that takes the floor.',
      evidence: choice({ good: 'runs and drains, no leak seen', slow: 'drains slowly', leak: 'leak seen', several: 'several of these' }),
      basis: duty('SOP-143'),
      minutes: 2,
    }),
    step({
      key: 'hose-faucets',
      title: 'Hose faucets outside',
      instruction:
        'Open each with no hose on it, look inside the house at the pipe behind it while it runs, and close it. In frost do not open any: record that, ' +
        'and note hoses left on.',
      why: 'A pipe split by frost leaks only while the faucet is open.',
      evidence: { kind: 'count', of: 'hose faucets run' },
      basis: duty('SOP-143'),
      minutes: 1,
    }),
    step({
      key: 'drain-waste-vent',
      title: 'Drains, waste and vents',
      kit: ['flashlight', 'camera'],
      instruction:
        'After the fixtures have run follow the visible drains: stains, slope, makeshift joints, open cleanouts, missing traps, vents that end in the attic. ' +
        'The pipe in the ground is not seen: offer a camera look where the house is older than 1980 or has large trees.',
      why: 'Roots in an old clay pipe show only as a slow basement drain.',
      evidence: note('materials; leaks and makeshift joints'),
      basis: duty('SOP-139'),
      style: 'read_then_do',
      after: ['bathroom-fixtures'],
      minutes: 2,
      references: [trade('clay pipe in the ground')],
    }),
    step({
      key: 'gas-piping',
      title: 'Gas piping and shut-offs',
      applies: burns('natural_gas', 'propane'),
      kit: ['gas_detector'],
      instruction:
        'Follow the visible piping with the detector at unions, valves and connectors. Note missing supports, uncapped ends, flexible connectors through ' +
        'walls and missing shut-offs. Turn no valve.',
      why: 'Small leaks are common at old unions; a nose gets used to them.',
      caution:
        'Strong smell or alarm of the detector: everybody out, touch no switch or phone inside, call the gas company or 911 from outside. Do not look for the leak.',
      evidence: choice({
        none: 'no leak indicated',
        indicated: 'leak indicated',
        open_end: 'uncapped or open end',
        not_seen: 'piping not visible',
      }),
      basis: duty('SOP-141'),
      minutes: 2,
    }),
    step({
      key: 'private-well-limit',
      title: 'Private well: what we do not do',
      applies: { fact: 'waterSource', compare: 'is', value: 'private_well' },
      instruction:
        'Tell the client that we give no inspection and no opinion of the well or the pressure system, and that a licensed well driller or pump ' +
        'installer does this at a sale. Take a water sample only if it was ordered, without any opinion.',
      why: 'In Wisconsin this work at a property transfer is for licensed well people only.',
      evidence: CONFIRM,
      basis: EXTRA,
      minutes: 1,
      references: [
        {
          title: 'Wisconsin Administrative Code',
          section: 'NR 812.44(1), NR 146.11',
          edition: 'online text, edition date not noted',
          status: 'found',
        },
      ],
    }),
  ],
};
