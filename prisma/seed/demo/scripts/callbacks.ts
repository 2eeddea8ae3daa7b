// Callbacks of the special jobs, in all kinds and states.
import { createAction, finishAction } from '@backsight/usecases/callbacks/correctiveActions';
import { entriesOf, issuedSteps, itemsOf } from '@backsight/store/sitework';
import { shiftDay } from '@backsight/domain/shared/calendar';
import { ATTIC_STEPS_REVISED } from '../../procedures/atticRevision.ts';
import { GROUND_FAULT_QUESTIONS, GROUND_FAULT_STEPS_REVISED } from '../../procedures/groundFaultRevision.ts';
import { dayOf, minutesAfter } from '../calendar.ts';
import { actorOf, byId, inspectors, PEOPLE } from '../people.ts';
import { askPair, giveOf } from './accounts.ts';
import type { Role } from '../plan.ts';
import type { Stage } from '../stage.ts';
import {
  acknowledge,
  approve,
  carryOut,
  estimate,
  clear,
  close,
  conclude,
  haveIt,
  lookInto,
  note,
  openCase,
  pay,
  notify,
  propose,
  receive,
  recover,
  setAside,
  tick,
  type Case,
  waitForClient,
} from './case.ts';
import { OFFICE, OWNER, type DemoContext, type PlayedJob } from './context.ts';
import { changeProcedure } from './revisions.ts';

type Story = (c: Case, demo: DemoContext, stage: Stage) => void;

/** What comes back after the visit of a special job; nothing for all others. */
export function callbackMayCome(demo: DemoContext, stage: Stage, job: PlayedJob, recordId: string): void {
  STORIES[job.plan.role]?.(openCase(demo, stage, job, recordId), demo, stage);
}

/** The entry at a step for the thing with this label. */
const entryAt =
  (c: Case, stepKey: string, label: string) =>
  async (stage: Stage): Promise<string | undefined> => {
    const item = (await itemsOf(stage.reader, c.recordId)).find((one) => one.label === label);
    const known = (await issuedSteps(stage.reader, c.recordId)).some((step) => step.stepKey === stepKey);
    return known
      ? (await entriesOf(stage.reader, c.recordId)).find((entry) => entry.stepKey === stepKey && entry.itemId === item?.id)?.id
      : undefined;
  };

const freezer: Story = (c, demo) => {
  const discoveredOn = shiftDay(c.inspectedOn, 9);
  c.on(
    9,
    9,
    receive(c, {
      speaker: 'client',
      kind: 'missed',
      system: 'electrical',
      place: 'Garage, freezer',
      remedySought: 'The food made good',
      discoveredOn,
      words:
        'The chest freezer in the garage has thawed. Its outlet has no power, and nobody has used the bath upstairs since the inspectors were here. The button on the outlet beside the upstairs sink was out; pressing it brought the freezer back.',
    }),
    40,
  );
  c.on(
    9,
    11,
    acknowledge(c, 'Asked for photos of the food and of the outlet before anything is thrown away. Told that the plug may go back in.'),
  );
  c.on(10, 8, lookInto(c, 'Record of the visit and photos read.'), 30);
  c.on(10, 9, setAside(c, 45_000, 'Contents of a chest freezer, on the photos and the list of the client.'));
  c.on(10, 10, askPair(c, demo));
  c.on(
    10,
    17,
    giveOf(
      c,
      'first',
      'A ground-fault device beside the upstairs sink. In the garage a chest freezer on an outlet behind shelves; I did not read a label there.',
      'I tripped the device in the bath with its button, saw that the outlet beside it was dead, and reset it. I did not go back to the garage after that.',
    ),
  );
  c.on(
    11,
    8,
    giveOf(
      c,
      'second',
      'The freezer in the garage was running when I came in; its lamp was on. I am not sure whether I looked at it again later.',
      'I did the garage before the baths: door, floor, walls, the outlets that could be reached. The bath upstairs was not mine that day.',
    ),
  );
  c.on(
    12,
    10,
    conclude(
      c,
      'not_in_procedure',
      'The garage outlet is fed through the device in the upstairs bath. The record shows the device tripped and reset, and asks nothing about the power of what it feeds.',
      'ground-fault-trip-reset',
      entryAt(c, 'ground-fault-trip-reset', 'upstairs bath'),
    ),
  );
  c.on(
    12,
    14,
    changeProcedure(demo, {
      procedure: 'electrical',
      steps: GROUND_FAULT_STEPS_REVISED,
      questions: GROUND_FAULT_QUESTIONS,
      callbackIds: [c.id],
      title: 'Every receptacle that was live is live again after the ground-fault test',
      why: 'A ground-fault device fed a receptacle two floors away, and nobody looked whether its power was back.',
      reason: 'Find what a ground-fault device feeds, and count that all of it is live again before leaving.',
      atTheStart: ['freya', 'elio'],
      never: [],
    }),
  );
  c.on(
    13,
    9,
    clear(c, 'owner_reason', 'Below the deductible, and the policy lets us settle small losses ourselves. Told the insurer for the file.'),
  );
  const paid = propose(c, {
    kind: 'goodwill_payment',
    cents: 38_640,
    payee: 'Constance Elmgren',
    words: 'Food by the list and receipts of the client.',
  });
  c.on(13, 10, paid.scene);
  c.on(15, 9, pay(paid.remedyId));
  c.on(15, 10, setAside(c, 0, 'Settled for less.'), 30);
  c.on(16, 11, close(c, 'The client has the check and has signed the settlement release.'));
};

const atticOne: Story = (c) => {
  c.on(
    29,
    10,
    receive(c, {
      speaker: 'client',
      kind: 'missed',
      system: 'attic',
      place: 'Attic above the hall bath',
      remedySought: 'The duct led outside and the stained sheathing treated',
      discoveredOn: shiftDay(c.inspectedOn, 27),
      words: 'Our roofer found that the fan of the hall bath blows into the attic. The boards above it are dark.',
    }),
  );
  c.on(29, 13, acknowledge(c, 'Asked to leave it as it is until we or somebody independent has seen it.'));
  c.on(31, 9, lookInto(c, 'Photos of the roofer came in.'));
  c.on(31, 10, setAside(c, 80_000, 'Estimate of the roofer.'));
  c.on(
    34,
    9,
    conclude(
      c,
      'not_in_procedure',
      'The duct was looked at where it leaves the fan, as the step says. Where it ends, the step does not ask.',
      'attic-bath-fan-duct',
    ),
  );
  c.on(35, 9, clear(c, 'insurer_consent', 'The insurer agrees in writing that we pay an independent contractor up to $800.'));
  const work = propose(c, {
    kind: 'independent_contractor',
    cents: 71_500,
    payee: 'Osprey Roofing and Sheet Metal',
    words: 'Duct to a roof cap, sheathing brushed and treated.',
  });
  c.on(35, 11, work.scene);
  c.on(36, 9, approve(work.remedyId, 'Agreed.'));
  c.on(40, 9, pay(work.remedyId));
  c.on(40, 10, setAside(c, 0, 'Done for less than set aside.'));
  c.on(41, 9, close(c, 'The client is content.'));
};

const atticTwo: Story = (c, demo) => {
  c.on(
    12,
    9,
    receive(c, {
      speaker: 'client',
      kind: 'missed',
      system: 'attic',
      place: 'Attic, north side',
      remedySought: 'Part of the fee back',
      discoveredOn: shiftDay(c.inspectedOn, 11),
      words: 'A bath fan ends under the insulation. Your report says that it is attached.',
    }),
  );
  c.on(12, 12, acknowledge(c, 'Spoken with; photos asked for.'));
  c.on(13, 9, lookInto(c, 'Second one of this kind: both records read side by side.'));
  c.on(
    14,
    9,
    conclude(
      c,
      'not_in_procedure',
      'Attached at the fan, as the step asks; the other end lies under the insulation.',
      'attic-bath-fan-duct',
    ),
  );
  c.on(
    14,
    13,
    changeProcedure(demo, {
      procedure: 'attic',
      steps: ATTIC_STEPS_REVISED,
      questions: [],
      callbackIds: [c.id],
      title: 'Bath fan ducts followed to their end',
      why: 'Twice a duct that was tight at the fan ended in the attic.',
      reason: 'Follow the duct of every bath fan to where it ends, and see that end outside.',
      atTheStart: [],
      never: ['gus'],
    }),
  );
  c.on(15, 9, clear(c, 'owner_reason', 'A part of the fee, below the deductible.'));
  const back = propose(c, { kind: 'fee_refund', cents: 15_000, payee: 'The client', words: 'Third of the fee.' });
  c.on(15, 10, back.scene);
  c.on(18, 9, pay(back.remedyId));
  c.on(19, 9, close(c, 'Paid back; the client will have the duct led outside.'));
};

const declined: Story = (c) => {
  c.on(
    33,
    9,
    receive(c, {
      speaker: 'client',
      kind: 'missed',
      system: 'heating',
      place: 'Basement, furnace',
      remedySought: 'A new blower motor',
      discoveredOn: shiftDay(c.inspectedOn, 32),
      words: 'The furnace blower stopped last night. You inspected it only a month ago.',
    }),
  );
  c.on(33, 11, acknowledge(c, 'Heat is on again with a loaner heater.'));
  c.on(34, 9, lookInto(c, 'Readings of the visit are within range.'));
  c.on(
    37,
    9,
    conclude(
      c,
      'arose_later',
      'It ran, with a usual rise of temperature, on the day. The technician dates the fault of the bearing after that.',
    ),
  );
  const no = propose(c, {
    kind: 'declined',
    cents: 0,
    payee: '',
    words: 'The blower ran on the day and its readings were usual. The agreement covers what can be seen and operated on that day.',
  });
  c.on(38, 9, no.scene);
  c.on(38, 14, carryOut(no.remedyId, 'Letter sent with the readings and the page of the report.', OFFICE));
  c.on(45, 9, close(c, 'No further word.'));
};

const nearMiss: Story = (c, _demo, stage) => {
  const pairFirst = actorOf(byId(c.job.first));
  stage.at(
    minutesAfter(c.job.endsAt, 30),
    receive(
      c,
      {
        speaker: 'client',
        kind: 'near_miss',
        system: 'electrical',
        place: 'Basement, panel',
        remedySought: '',
        words:
          'One cover screw of ours was longer than those that were there. It touched nothing; we took it out and put the old one back before we left.',
      },
      pairFirst,
    ),
  );
  c.on(
    2,
    9,
    conclude(
      c,
      'done_wrongly',
      'The step says to put back every screw that was there. A spare from the pouch was used.',
      'panel-cover-back',
    ),
  );
  c.on(2, 10, async (later) => {
    const id = later.newId();
    await later.act(c.lead, createAction, {
      id,
      kind: 'training',
      title: 'Cover screws: only those that came out',
      why: 'A spare screw may reach a live part.',
      ownerId: PEOPLE.tomas.id,
      dueOn: shiftDay(dayOf(later.now()), 10),
      reviewOn: null,
      reviewerId: null,
      callbackIds: [c.id],
    });
    later.at(
      minutesAfter(later.now(), 60 * 24 * 5),
      async (then) =>
        void (await then.act(c.lead, finishAction, {
          id,
          outcome: 'done',
          what: 'Shown at the table with three covers and their screws; everybody did one.',
          doneOn: null,
          attendees: inspectors.map((person) => person.id),
          kit: '',
        })),
    );
  });
  c.on(3, 9, close(c, 'Told to everybody on Monday morning.'));
};

const damage: Story = (c, _demo, stage) => {
  c.on(
    1,
    9,
    receive(c, {
      speaker: 'seller',
      kind: 'damage_or_injury',
      system: 'exterior',
      place: 'North side, downspout',
      remedySought: 'Downspout and gutter put right',
      discoveredOn: shiftDay(c.inspectedOn, 1),
      words: 'The downspout behind the garage is bent and the gutter hangs. It was straight before your people leaned the ladder there.',
    }),
  );
  c.on(1, 10, acknowledge(c, 'Photos came; sorry to hear of it, and somebody looks into it.'));
  c.on(1, 14, lookInto(c, 'The pair says that the ladder slid a foot when it was taken down.'));
  c.on(2, 9, setAside(c, 90_000, 'New downspout and 12 ft of gutter.'));
  c.on(3, 9, conclude(c, 'damaged_on_visit', 'Bent by our ladder.'));
  c.on(4, 9, clear(c, 'insurer_consent', 'Consent by e-mail of the insurer of the general liability policy.'));
  const [lower, higher] = [stage.newId(), stage.newId()];
  const scope = 'New downspout at the north side, 12 ft of gutter rehung.';
  c.on(3, 13, estimate(c, lower, { contractor: 'Plover Gutter Works', license: 'DC-1188 (invented)', cents: 72_000, scope }));
  c.on(3, 14, estimate(c, higher, { contractor: 'Sandhill Sheet Metal', license: '', cents: 89_500, scope }));
  const fix = propose(c, {
    kind: 'independent_contractor',
    cents: 72_000,
    payee: 'Plover Gutter Works',
    estimateId: lower,
    words: 'By the lower of two estimates.',
  });
  c.on(4, 11, fix.scene);
  c.on(5, 9, approve(fix.remedyId, 'Agreed.'));
  c.on(11, 9, pay(fix.remedyId));
  c.on(11, 10, setAside(c, 0, 'The invoice was lower.'));
  c.on(12, 9, close(c, 'The seller has seen the work and is content.'));
  c.on(33, 10, recover(c, 22_000, 'Paid by the insurer above the deductible.'));
};

const legal: Story = (c) => {
  const servedOn = c.workingDay(16);
  c.on(
    16,
    15,
    receive(
      c,
      {
        speaker: 'attorney',
        kind: 'demand_or_suit',
        system: 'structure',
        place: 'Basement, west wall',
        remedySought: '$9,400 for a wall brace',
        servedOn,
        serviceWay: 'certified mail',
        deadlineOn: shiftDay(servedOn, 60),
        words: 'Demand letter of the attorney of the buyers: the bowed wall is said to have been visible.',
      },
      OWNER,
    ),
  );
  c.on(16, 16, acknowledge(c, 'Nothing said to the other side. Sent to the insurer and to our attorney the same day.', OWNER));
  c.on(16, 16, tick(c, 'insurer', 'By e-mail to the claim desk, with the letter.'), 10);
  c.on(16, 16, tick(c, 'attorney', 'Called, and the letter sent along.'), 20);
  c.on(16, 16, tick(c, 'silence', 'Told everybody at the desk and both inspectors.'), 30);
  c.on(17, 9, setAside(c, 250_000, 'The deductible.', OWNER));
  const notice = propose(c, { kind: 'insurer_notice', cents: 0, payee: '', words: 'Notice under the professional policy.' }, OWNER);
  c.on(17, 10, notice.scene);
  c.on(17, 11, notify(c, 'The demand letter in full, and that nothing was said to the other side. Receipt confirmed.', OWNER));
  c.on(18, 9, lookInto(c, 'The record and the photos of the wall went to our attorney.', OWNER));
};

const conduct: Story = (c) => {
  c.on(
    2,
    9,
    receive(c, {
      speaker: 'client',
      kind: 'conduct',
      system: 'arrival',
      place: '',
      remedySought: 'An apology',
      words: 'They came twenty minutes late without a call, and one of them was on the phone in the kitchen.',
    }),
  );
  c.on(2, 11, acknowledge(c, 'Listened. The road was closed; nobody called ahead, which is ours.'));
  c.on(3, 9, lookInto(c, 'Spoken with both.'));
  c.on(4, 9, conclude(c, 'service_or_conduct', 'Late without a word. A call from the car would have done.'));
  c.on(4, 10, clear(c, 'owner_reason', 'A courtesy; nothing is claimed.'));
  const courtesy = propose(c, { kind: 'fee_refund', cents: 5_000, payee: 'The client', words: 'A courtesy.' });
  c.on(4, 11, courtesy.scene);
  c.on(6, 9, pay(courtesy.remedyId));
  c.on(7, 9, close(c, 'Apology and check accepted.'));
};

const fee: Story = (c) => {
  c.on(
    4,
    9,
    receive(c, {
      speaker: 'client',
      kind: 'fee',
      system: 'arrival',
      place: '',
      remedySought: 'The radon fee back',
      words: 'Radon was charged, and we heard nothing of a result for over a week.',
    }),
  );
  c.on(4, 13, acknowledge(c, 'Result sent again the same hour.'));
  c.on(5, 9, lookInto(c, 'The result had gone to a mistyped address.'));
  c.on(6, 9, conclude(c, 'service_or_conduct', 'Told late, through our slip.'));
  c.on(6, 11, propose(c, { kind: 'fee_refund', cents: 8_750, payee: 'The client', words: 'Half of the radon fee.' }).scene);
  c.on(6, 13, setAside(c, 8_750, 'Agreed, not yet cleared.'));
};

const concluded: Story = (c) => {
  c.on(
    3,
    9,
    receive(c, {
      speaker: 'client',
      kind: 'missed',
      system: 'heating',
      place: 'Hall, thermostat',
      remedySought: 'The extra fuel',
      discoveredOn: shiftDay(c.inspectedOn, 3),
      words: 'The house was at 84 degrees when we came back. The thermostat was still on hold from the inspection.',
    }),
  );
  c.on(3, 10, acknowledge(c, 'Told how to set it back.'));
  c.on(5, 9, lookInto(c, 'The photo of the thermostat as found shows 64 degrees.'));
  c.on(5, 10, setAside(c, 6_000, 'Fuel of two days.'));
  c.on(11, 9, conclude(c, 'skipped', 'Both confirmed that everything was as it was; the thermostat was not.', 'restore-what-we-changed'));
};

const question: Story = (c) => {
  c.on(
    5,
    9,
    receive(c, {
      speaker: 'client',
      kind: 'question',
      system: 'electrical',
      place: '',
      remedySought: '',
      words: 'What does "not protected, safety improvement" mean for the outlet by the deck?',
    }),
  );
  c.on(5, 11, acknowledge(c, 'Explained by phone: it met the code of its year; a protected one is cheap and worth it.'));
  c.on(5, 12, close(c, 'Answered.', OFFICE));
};

const acknowledged: Story = (c) => {
  c.on(
    7,
    9,
    receive(c, {
      speaker: 'client',
      kind: 'missed',
      system: 'plumbing',
      place: 'Under the kitchen sink',
      remedySought: 'Not said yet',
      discoveredOn: shiftDay(c.inspectedOn, 6),
      words: 'The trap under the kitchen sink drips. There is a bowl under it now.',
    }),
  );
  c.on(7, 15, acknowledge(c, 'Asked for photos. The client is away until the end of the week.'));
  c.on(7, 15, waitForClient(c, 'The client is away until the end of the week, and nobody else can let us in.'), 10);
  c.on(8, 9, note(c, 'Photos came in.'));
};

/** Came in on the last working day, whatever day it is today. */
const fresh: Story = (c, { calendar }, stage) => {
  const day = calendar.workday(-1);
  const told = {
    speaker: 'client',
    kind: 'missed',
    safety: true,
    system: 'water_heater',
    place: 'Utility room',
    remedySought: 'Somebody who looks at it today',
    discoveredOn: day,
  } as const;
  stage.at(
    calendar.at(day, 15, 40),
    receive(c, { ...told, words: 'The carbon monoxide alarm went off twice this afternoon when the water heater ran. We are outside.' }),
  );
  stage.at(calendar.at(day, 15, 46), haveIt(c, OFFICE));
};

const STORIES: Partial<Record<Role, Story>> = {
  freezer,
  attic_one: atticOne,
  attic_two: atticTwo,
  declined,
  near_miss: nearMiss,
  damage,
  legal,
  conduct,
  fee,
  concluded,
  question,
  acknowledged,
  fresh,
};
