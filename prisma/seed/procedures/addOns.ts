// Work that a client orders besides: lawn sprinklers, radon, wood-destroying insects, infrared, outbuildings, water samples, outside providers.
import type { Procedure } from '@backsight/domain/procedures/step';
import { choice, CONFIRM, EXTRA, note, ordered, step, trade } from './shorthand.ts';

const SPRINKLERS = ordered('lawn_sprinklers');
const RADON = ordered('radon');
const INSECTS = ordered('wood_insects');
const INFRARED = ordered('infrared');
const OUTBUILDING = ordered('outbuilding');

const RADON_TEST = {
  title: 'Wisconsin Department of Health Services, radon pages',
  section: '48 hours or more; 12 hours closed house before (from memory)',
  edition: 'edition not noted',
  status: 'found',
} as const;
const SCAN = {
  title: 'ASHRAE 101-1981, as quoted in a trade article',
  section: '18 F between inside and outside, held for 3 hours',
  edition: '1981',
  status: 'found',
} as const;

export const LAWN_SPRINKLERS: Procedure = {
  key: 'lawn-sprinklers',
  title: 'Lawn sprinklers',
  system: 'lawn_sprinklers',
  steps: [
    step({
      key: 'sprinkler-backflow',
      title: 'Device against backflow',
      applies: SPRINKLERS,
      instruction:
        'Find the vacuum breaker or backflow device: kind, height above the highest head, drips, the tag of its last test, and how it is drained for winter.',
      why: 'Lawn water with fertilizer must not come back into the kitchen.',
      evidence: choice({ there: 'there, dry', drips: 'drips or cracked', missing: 'none found' }),
      basis: EXTRA,
      minutes: 2,
      references: [trade('backflow devices of sprinklers')],
    }),
    step({
      key: 'sprinkler-zones',
      title: 'Each zone run by hand at the control',
      applies: SPRINKLERS,
      instruction:
        'Run each zone for a minute in manual mode. Count in the remarks. Look for heads that do not rise, spray at the house or street, wet ground between heads, low pressure. Set the control back as it was.',
      why: 'A broken pipe below a lawn shows only while its zone runs.',
      evidence: choice({
        good: 'each zone runs',
        heads: 'heads broken or turned to the house',
        leak: 'leak or low pressure',
        several: 'several of these',
        not_run: 'not run: closed for the season',
      }),
      basis: EXTRA,
      minutes: 15,
      references: [trade('running sprinkler zones')],
    }),
    step({
      key: 'sprinkler-control-and-sensor',
      title: 'Control, rain sensor, wiring',
      applies: SPRINKLERS,
      instruction:
        'Photograph the program before touching it. Look for a rain or freeze sensor, open valve boxes, bare splices and a control that gets wet.',
      why: 'Without a sensor it waters in rain and ice.',
      evidence: CONFIRM,
      basis: EXTRA,
      minutes: 3,
      references: [trade('sprinkler controls')],
    }),
  ],
};

export const RADON_MEASUREMENT: Procedure = {
  key: 'radon-measurement',
  title: 'Radon measurement',
  system: 'radon',
  steps: [
    step({
      key: 'radon-closed-house',
      title: 'Closed house for 12 hours before, and notice to the occupant',
      applies: RADON,
      qualification: 'radon',
      style: 'read_then_do',
      after: ['adult-present-or-vacant'],
      instruction:
        'Ask since when windows and outside doors have been shut and note the hour. Give or mail the notice: stay closed, furnace and cooling as usual, no window fans, nobody moves the monitor. Shut for less than 12 hours: say from when the test counts.',
      why: 'An open window makes any house look good.',
      evidence: choice({
        twelve: 'closed 12 hours or more',
        later: 'closed since less: the test counts later',
        refused: 'occupant does not keep it closed',
      }),
      basis: EXTRA,
      minutes: 3,
      references: [RADON_TEST],
    }),
    step({
      key: 'radon-monitor-place',
      title: 'Monitor placed and started',
      applies: RADON,
      qualification: 'radon',
      kit: ['radon_monitor', 'camera'],
      style: 'read_then_do',
      after: ['radon-closed-house'],
      instruction:
        'Lowest level that is or could be lived in, not in kitchen, bath, laundry or crawl space. 20 in above the floor, 3 ft from windows and doors, 1 ft from outside walls, out of drafts and sun. Photograph it in place with its serial number, and start it.',
      why: 'The place decides the number; the photo decides the argument.',
      evidence: note('room, serial number, hour of the start'),
      basis: EXTRA,
      minutes: 5,
      references: [trade('placing of radon monitors')],
    }),
    step({
      key: 'radon-fan-running',
      title: 'Mitigation fan during the test',
      applies: RADON,
      style: 'read_then_do',
      after: ['radon-monitor-place'],
      instruction: 'If there is a fan leave it as found: running for 24 hours before, or off and then the report says so. Note the gauge.',
      why: 'A test with the fan off tells of another house than the one that is sold.',
      evidence: choice({ none: 'no fan', running: 'fan running as found', off: 'fan off as found' }),
      basis: EXTRA,
      minutes: 1,
      references: [trade('testing with a mitigation fan')],
    }),
  ],
};

export const WOOD_INSECTS: Procedure = {
  key: 'wood-insects',
  title: 'Wood-destroying insects',
  system: 'wood_insects',
  steps: [
    step({
      key: 'insects-outside',
      title: 'Outside: foundation, siding, posts, stumps',
      applies: INSECTS,
      qualification: 'wood_insects',
      kit: ['flashlight', 'moisture_meter'],
      instruction:
        'Go once around at knee height: mud tubes on the wall, holes and sawdust at trim, posts, steps and fences that touch the house, firewood, mulch against siding. Probe only bare wood that is already damaged.',
      why: 'They come from the soil or from wet wood, and both are outside.',
      evidence: choice({
        none: 'no visible evidence',
        old: 'old damage or tubes',
        live: 'live insects seen',
        conditions: 'conditions that invite them',
        several: 'several of these',
      }),
      basis: EXTRA,
      minutes: 8,
      references: [trade('insect inspection around a house')],
    }),
    step({
      key: 'insects-lowest-level',
      title: 'Lowest level: sills, joists, posts, stairs',
      applies: INSECTS,
      qualification: 'wood_insects',
      kit: ['flashlight'],
      instruction:
        'Follow the sill all around, then joist ends, post feet, stair stringers, window frames and stored wood. Tap suspect wood. State in words what could not be reached.',
      why: 'The first inch of wood above the wall is where it begins.',
      evidence: choice({
        none: 'no visible evidence',
        old: 'old damage',
        live: 'live insects seen',
        part: 'seen only in part',
        several: 'several of these',
      }),
      basis: EXTRA,
      minutes: 10,
      references: [trade('insect inspection of basements')],
    }),
    step({
      key: 'insects-report-line',
      title: 'What is said, and to whom it is referred',
      applies: INSECTS,
      qualification: 'wood_insects',
      style: 'read_then_do',
      after: ['insects-lowest-level'],
      instruction:
        'State areas seen and not seen, evidence by place, and that no visible evidence is no promise. Treatment is for a licensed applicator that the client chooses. Promise no price.',
      why: 'The form is read by a lender who was not there.',
      evidence: note('areas not seen; evidence by place; referral'),
      basis: EXTRA,
      minutes: 4,
      references: [
        {
          title: 'Washington Administrative Code, as a yardstick only',
          section: 'WAC 16-228-2045',
          edition: 'edition not noted',
          status: 'found',
        },
      ],
    }),
  ],
};

export const INFRARED_SCAN: Procedure = {
  key: 'infrared-scan',
  title: 'Infrared scan',
  system: 'infrared',
  steps: [
    step({
      key: 'infrared-difference',
      title: 'Temperature inside and outside',
      applies: INFRARED,
      qualification: 'infrared',
      kit: ['thermometer', 'infrared_camera'],
      style: 'read_then_do',
      after: ['weather-outside'],
      instruction:
        'Read outside air in the shade, then inside air at mid height. An insulation scan wants about 18 F between them for three hours or more. For moisture no difference rules anything in or out.',
      why: 'Without a difference every wall looks well insulated.',
      evidence: {
        kind: 'difference',
        unit: 'F',
        firstLabel: 'outside air',
        secondLabel: 'inside air',
        expectedFrom: 18,
        expectedTo: 90,
        hint: 'for insulation only; in summer the difference is negative and its size counts',
      },
      basis: EXTRA,
      minutes: 2,
      references: [SCAN],
    }),
    step({
      key: 'infrared-insulation',
      title: 'Insulation and air leaks by room',
      applies: INFRARED,
      qualification: 'infrared',
      kit: ['infrared_camera', 'camera'],
      style: 'read_then_do',
      after: ['infrared-difference'],
      instruction:
        'Outside walls and ceilings room by room, away from sun and heaters. Take each anomaly twice: heat picture and ordinary picture of the same place. Word it as a pattern, not as a cause.',
      why: 'A cold stripe may be a stud, a gap, or wet wool.',
      evidence: choice({
        even: 'patterns as expected',
        missing: 'patterns that suggest missing insulation',
        leaks: 'patterns that suggest air leaks',
        several: 'several of these',
        not_done: 'difference too small: not scanned',
      }),
      basis: EXTRA,
      minutes: 20,
      references: [
        SCAN,
        { title: 'ASTM C1060', section: 'thermography of insulation in buildings', edition: 'edition not noted', status: 'from memory' },
      ],
    }),
    step({
      key: 'infrared-moisture-confirmed',
      title: 'Cold spots that may be wet: the meter decides',
      applies: INFRARED,
      qualification: 'infrared',
      kit: ['infrared_camera', 'moisture_meter'],
      style: 'read_then_do',
      after: ['infrared-difference'],
      instruction:
        'Below baths, at windows, at the roof edge and at the foot of walls. Read each cold spot and a dry place beside it with the meter. Without a meter reading nothing is called wet.',
      why: 'A picture shows temperature, never water.',
      evidence: choice({ dry: 'spots read dry', wet: 'spot read wet: place in the remarks', none: 'no spots' }),
      basis: EXTRA,
      minutes: 8,
      references: [trade('a second method for each infrared finding')],
    }),
  ],
};

export const OUTBUILDINGS: Procedure = {
  key: 'outbuildings',
  title: 'Outbuildings',
  system: 'outbuilding',
  steps: [
    step({
      key: 'outbuilding-structure',
      title: 'Outbuilding: frame, roof, doors',
      per: 'outbuilding',
      applies: OUTBUILDING,
      kit: ['flashlight'],
      instruction:
        'From outside first: lean, rot at the posts, sagging roof, doors off their track. Go in only if it stands straight; look at rafters, floor or loft from the ground.',
      why: 'A barn that leans is news to the buyer and a danger to whoever parks in it.',
      caution: 'Stay out of what leans, and off lofts, ladders and rotten floors. Chemicals and animals: look from the door.',
      evidence: choice({
        sound: 'sound as seen',
        worn: 'rot, sag or leaks',
        outside: 'seen from outside only: not safe',
        locked: 'locked',
      }),
      basis: EXTRA,
      minutes: 8,
      references: [trade('outbuildings')],
    }),
    step({
      key: 'outbuilding-electrical',
      title: 'Outbuilding: wiring and its panel',
      per: 'outbuilding',
      applies: OUTBUILDING,
      after: ['ask-before-power'],
      kit: ['voltage_tester', 'receptacle_tester'],
      instruction:
        'Look at the line that feeds it, cable without protection, open boxes, its ground rod, ground-fault protection of its receptacles. The panel cover is taken off by the panel steps or not at all.',
      why: 'Most of it was done on a weekend.',
      caution: 'Test enclosures before touching them. Wet floor, rodents in the panel or a cable on the ground: look only.',
      evidence: choice({
        sound: 'sound as seen',
        faults: 'open, unprotected or damaged',
        none: 'no electricity',
        not_seen: 'not safe to look closer',
      }),
      basis: EXTRA,
      minutes: 5,
      references: [trade('outbuildings')],
    }),
    step({
      key: 'outbuilding-water-and-heat',
      title: 'Outbuilding: water, heat, fuel',
      per: 'outbuilding',
      applies: OUTBUILDING,
      instruction:
        'Name what is there: hydrant, pipes without frost protection, stove or heater and its vent, fuel cans and tanks. Run nothing that was off.',
      why: 'A heater without a vent in a closed workshop can kill.',
      evidence: note('water, heat and fuel seen, or none'),
      basis: EXTRA,
      minutes: 3,
      references: [trade('outbuildings')],
    }),
  ],
};

export const WATER_SAMPLES_AND_PROVIDERS: Procedure = {
  key: 'samples-and-providers',
  title: 'Water samples and outside providers',
  system: 'samples_providers',
  steps: [
    step({
      key: 'water-sample-taken',
      title: 'Water sample taken, without opinion',
      applies: ordered('well_water_sample'),
      instruction:
        "At a cold tap without aerator or softener: gloves, run five minutes, fill each bottle to its line without touching the inside. Bacteria, nitrate and arsenic as ordered. Write serial number, tap and time on label and paper. Keep cold, within the laboratory's time.",
      why: 'A bottle touched inside finds bacteria that are ours.',
      evidence: note('tap, time, serial numbers'),
      basis: EXTRA,
      minutes: 10,
      references: [
        {
          title: 'Wisconsin Administrative Code',
          section: 'NR 812.44(1): no opinion on the well without a license',
          edition: 'online text, edition date not noted',
          status: 'found',
        },
        {
          title: 'Code of Federal Regulations',
          section: '40 CFR 141: coliform absent, nitrate 10 mg/L, arsenic 10 ug/L',
          edition: 'edition not noted',
          status: 'from memory',
        },
      ],
    }),
    step({
      key: 'outside-provider-met',
      title: 'Outside provider on site',
      applies: { any: [ordered('sewer_camera'), ordered('septic'), ordered('well_inspection')] },
      instruction:
        'Say who contracts with whom, show the way in, and stay out of their work. Ask for the document and note when it is promised. Look afterwards that lids and cleanouts are closed.',
      why: 'Their work is theirs; an open lid on the day of our visit becomes ours.',
      caution: 'Open no cleanout, tank or well cap for them: a full line sprays, tank gas kills, and a fallen pump is dear.',
      evidence: choice({
        done: 'came, closed up, document promised',
        waits: 'did not come',
        open: 'left something open: told and closed off',
      }),
      basis: EXTRA,
      minutes: 3,
      references: [trade('working beside outside providers')],
    }),
  ],
};
