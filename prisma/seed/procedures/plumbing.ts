// Plumbing: supply, drains, fixtures, gas piping, and the limits where water is private.
import type { Procedure } from '@backsight/domain/procedures/step';
import { burns, choice, CONFIRM, duty, EXTRA, foundation, note, photo, step, trade } from './shorthand.ts';

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
      minutes: 3.5,
    }),
    step({
      key: 'tub-and-shower-surround',
      title: 'Tub and shower walls',
      per: 'bathroom',
      instruction:
        'Press the wall beside faucet and curb with a thumb, look at grout and caulk, loose tiles, the door and its glass mark, and the floor outside the tub. Pull no tile.',
      why: 'Soft walls behind tile begin at one open joint.',
      evidence: CONFIRM,
      basis: EXTRA,
      minutes: 0.5,
      references: [trade('tiled walls around water')],
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
      key: 'functional-flow',
      title: 'Two fixtures together',
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
      after: ['bathroom-fixtures'],
      minutes: 2,
      references: [trade('clay pipe in the ground')],
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
    step({
      key: 'water-meter-and-main-valve',
      title: 'Water meter and main valve: where they are',
      kit: ['flashlight'],
      instruction:
        'Find the meter and the valve that shuts the house off, and say in words how to get to it. Look for drips and rust at the valve. Turn no valve: an old one may not close again, or may not open.',
      why: 'On the night when a hose bursts nobody should have to search.',
      evidence: note('where meter and main valve are; or not found'),
      basis: EXTRA,
      minutes: 0.5,
      references: [trade('the client is shown the main valve')],
    }),
    step({
      key: 'water-main-valve-photo',
      title: 'Main water valve',
      after: ['water-meter-and-main-valve'],
      kit: ['camera'],
      instruction: 'Photograph the main valve with enough of the room around it that somebody in a hurry finds it. Do not turn it.',
      why: 'In a burst the client looks for it with the picture in hand.',
      evidence: photo('the main valve and where it is'),
      basis: EXTRA,
      minutes: 0.25,
      references: [trade('the client is shown the main valve')],
    }),
    step({
      key: 'stops-air-gaps-and-backflow',
      title: 'Fixture stops, air gaps, vacuum breakers',
      instruction:
        'At sinks and toilets look for stops; at dishwasher, softener drain and laundry tub for an air gap; at hose faucets and boiler fill for a device against backflow. Turn no stop.',
      why: 'A hose in a bucket can pull the bucket into the drinking water.',
      evidence: CONFIRM,
      basis: EXTRA,
      minutes: 0.5,
      references: [TEXAS_PLUMBING],
    }),
    step({
      key: 'laundry-connections',
      title: 'Laundry: hoses, standpipe, drain',
      instruction:
        'Look at the hoses for bulges and rust, the valves for drips, the standpipe for a trap and for stains of an overflow, and a pan where a leak would run into rooms below. Move no machine and start none.',
      why: 'A washing machine hose that bursts runs until somebody comes home.',
      evidence: CONFIRM,
      basis: EXTRA,
      minutes: 0.5,
      references: [trade('laundry hoses')],
    }),
    step({
      key: 'ejector-pit-in-basement',
      title: 'Sewage ejector in the basement',
      applies: foundation('basement'),
      instruction:
        'Where a bath or laundry lies below the sewer look at pit cover, seal, vent, check valve and alarm, and run one fixture into it. The cover stays on. No such pit: none at this property.',
      why: 'A pit without a sealed cover lets sewer gas into the house.',
      evidence: CONFIRM,
      basis: EXTRA,
      minutes: 0.5,
      references: [trade('ejector pits')],
    }),
    step({
      key: 'pressure-control-and-expansion',
      title: 'Reducing valve, check valve and expansion tank',
      instruction:
        'Near the meter and the water heater look for a reducing valve, check valve or backflow device. Where there is one, look for an expansion tank, its support and drips. Tap it: full of water it sounds dull.',
      why: 'Water that is heated in a closed system has nowhere to go but the relief valve.',
      evidence: choice({
        open: 'no closing device seen',
        tank: 'closing device with expansion tank',
        no_tank: 'closing device without expansion tank',
        failed: 'tank unsupported, full or leaking',
      }),
      basis: EXTRA,
      minutes: 0.5,
      references: [TEXAS_PLUMBING],
    }),
    step({
      key: 'lead-service-line',
      title: 'Service line: lead?',
      applies: { fact: 'yearBuilt', compare: 'below', value: 1987 },
      kit: ['flashlight'],
      instruction:
        'At the entry look at the pipe between wall and meter: a magnet holds on galvanized steel; lead is dull gray, with a bulb at the joint, and shines where a coin has scratched it. Scratch only bare pipe, once, and wash hands after. The part in the street is not seen.',
      why: 'Lead in the line is in the glass, and the city may pay to replace it.',
      evidence: choice({ other: 'copper or plastic as seen', steel: 'galvanized steel', lead: 'looks like lead', not_seen: 'not visible' }),
      basis: EXTRA,
      minutes: 0.5,
      references: [
        {
          title: 'Safe Drinking Water Act, amendments of 1986',
          section: 'ban of lead pipe and solder',
          edition: '1986',
          status: 'from memory',
        },
        trade('telling lead from steel'),
      ],
    }),
    step({
      key: 'gray-plastic-supply-pipe',
      title: 'Gray plastic supply pipe of about 1978 to 1995',
      applies: {
        all: [
          { fact: 'yearBuilt', compare: 'atLeast', value: 1975 },
          { fact: 'yearBuilt', compare: 'atMost', value: 1997 },
        ],
      },
      kit: ['flashlight'],
      instruction:
        'At the water heater, under sinks and in the basement look for gray (sometimes blue or black) flexible pipe marked PB with copper or plastic rings. Report it where seen.',
      why: 'Polybutylene cracks at its fittings without warning.',
      evidence: choice({ none: 'none seen', seen: 'seen', not_seen: 'pipes not visible' }),
      basis: EXTRA,
      minutes: 0.5,
      references: [trade('polybutylene, about 1978 to 1995')],
    }),
    step({
      key: 'sewer-line-by-age',
      title: 'Sewer line in the ground: what its age suggests',
      applies: {
        all: [
          { fact: 'waste', compare: 'is', value: 'public_sewer' },
          { fact: 'yearBuilt', compare: 'below', value: 1980 },
        ],
      },
      instruction:
        'Tell the client what lines of this age are often made of (clay before about 1980, tar-paper pipe about 1945 to 1972), note trees over the line and slow basement drains, and offer the camera look. We do not see it.',
      why: 'The line in the ground is the dearest pipe of the house and the one nobody looks at.',
      evidence: choice({ offered: 'told and camera offered', ordered: 'camera look ordered', nobody: 'client not present: in the report' }),
      basis: EXTRA,
      minutes: 0.5,
      references: [trade('sewer lines by age')],
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
      key: 'private-septic-limit',
      title: 'Private septic system: what we do not do',
      applies: { fact: 'waste', compare: 'is', value: 'septic' },
      instruction:
        'Tell the client that tank and field are for a credentialed person. From where you walk anyway note wet or green strips, smell, lids in sight, a pump alarm that is on. Open nothing. Run no more water than the fixtures need.',
      why: 'A field that fails costs as much as a car, and only its own specialist can say.',
      caution:
        'Keep off lids and sunken ground, and keep others off: lids break, and the gas below kills. A lid that is open or broken: stay with it until it is covered or the occupant has been told.',
      evidence: choice({
        none: 'no sign on the surface',
        signs: 'wet strip, smell or alarm',
        unsafe: 'lid open or broken: people told',
        not_found: 'place not found',
      }),
      basis: EXTRA,
      minutes: 1,
      references: [
        {
          title: 'Wisconsin Administrative Code',
          section: 'SPS 383: private onsite systems',
          edition: 'edition not noted',
          status: 'from memory',
        },
        trade('septic lids'),
      ],
    }),
    step({
      key: 'winterized-house',
      title: 'Winterized house: no water is run',
      applies: { fact: 'winterized', compare: 'is', value: true },
      after: ['utilities-as-found'],
      instruction:
        'Read the tags. Turn no water, heat or heater on. Look for split pipes, valves left open, missing antifreeze in traps and stains of a thaw; list every plumbing step as not run and offer a return visit after it is opened by whoever closed it.',
      why: 'Water into a pipe split by frost runs into the house, and we were the ones who opened it.',
      caution: 'Open no valve and no breaker. An electric water heater without water burns out, and steam can scald.',
      evidence: note('tags, what was seen, return visit offered'),
      basis: EXTRA,
      minutes: 2,
      references: [trade('winterized houses')],
    }),
    step({
      key: 'utility-off-limits',
      title: 'Water, gas or electricity off: what that leaves out',
      applies: {
        any: [
          { fact: 'waterOn', compare: 'is', value: false },
          { fact: 'gasOn', compare: 'is', value: false },
          { fact: 'electricityOn', compare: 'is', value: false },
        ],
      },
      style: 'read_then_do',
      after: ['utilities-as-found'],
      instruction:
        'For each that is off write down which systems are not operated for it, who could have it turned on and by when, and offer the return visit. We turn nothing on, nor ask a seller to do it while we wait.',
      why: 'The client should hear today what the visit cannot answer.',
      evidence: note('what is off; systems left out; who turns it on'),
      basis: EXTRA,
      minutes: 1,
      references: [trade('utilities found off')],
    }),
    step({
      key: 'oil-tank-inside',
      title: 'Oil tank: legs, gauge, fill and vent, line',
      applies: burns('oil'),
      kit: ['flashlight'],
      instruction:
        'Look at the legs, seams and the bottom for weeping, the gauge, the fill and vent pipes up to their ends outside, a whistle, and the line to the burner with its filter and valve. Open no valve and no plug.',
      why: 'Tanks rust from inside at the bottom, and a spill is a clean-up that no insurer likes.',
      caution: 'No flame, no spark. Fresh oil on the floor or a strong smell: out, call the supplier and, where it may reach a drain, 911.',
      evidence: choice({
        sound: 'dry and upright as seen',
        weeping: 'weeping, rusted or leaning',
        line: 'line or filter leaks',
        outside: 'tank outside or buried',
        several: 'several of these',
      }),
      basis: duty('SOP-141'),
      minutes: 1,
    }),
    step({
      key: 'propane-tank-outside',
      title: 'Propane tank, regulator and line',
      applies: burns('propane'),
      instruction:
        'From two steps away look at where it stands, its distance from doors, windows and what sparks (10 ft is common), the regulator under its cover, snow and ice above it, and where the line goes into the ground.',
      why: 'Ice that slides from a roof onto a regulator lets the gas out at full pressure.',
      caution:
        'Touch neither valve nor regulator. Propane lies low: at a smell keep out of basement and pits, everybody away, call the supplier or 911 from a distance.',
      evidence: choice({
        sound: 'sound as seen',
        close: 'too close, leaning or under sliding snow',
        line: 'line or regulator damaged',
        not_seen: 'buried or not visible',
      }),
      basis: duty('SOP-141'),
      minutes: 1,
      references: [trade('distance of propane tanks')],
    }),
  ],
};
