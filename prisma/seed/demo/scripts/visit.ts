// The visit: opened at the door, recorded step by step by both, ended and sealed; then the report.
import { suggestItems } from '@backsight/domain/sitework/items';
import type { ItemKind } from '@backsight/domain/shared/facts';
import { missingAcknowledgements } from '@backsight/store/procedures';
import { formatWord } from '@backsight/domain/agreements/signing';
import { newestAgreement, signersOf } from '@backsight/store/agreements';
import { issuedSteps, type IssuedStep } from '@backsight/store/sitework';
import { overrideGate } from '@backsight/usecases/agreements/overrideGate';
import { recordPaperSignature } from '@backsight/usecases/agreements/recordPaperSignature';
import { closeVisit } from '@backsight/usecases/sitework/closeVisit';
import { openRecord } from '@backsight/usecases/sitework/openRecord';
import { recordEntries, type EntryInput } from '@backsight/usecases/sitework/recordEntries';
import { sealRecord } from '@backsight/usecases/sitework/sealRecord';
import { dayOf, minutesAfter } from '../calendar.ts';
import { actorOf, byId } from '../people.ts';
import type { Scene, Stage } from '../stage.ts';
import { find, type FindingContext } from './answers.ts';
import { OWNER, type Defect, type DemoContext, type PlayedJob } from './context.ts';
import { reportIsWritten } from './report.ts';
import { callbackMayCome } from './callbacks.ts';
import { bothSignOff } from './closing.ts';
import { milesAdd } from './desk.ts';
import { drivesThere } from './drive.ts';

export function visitHappens(demo: DemoContext, stage: Stage, job: PlayedJob): void {
  if (job.plan.role === 'override') stage.at(minutesAfter(job.startsAt, -12), letsStart(job));
  stage.at(minutesAfter(job.startsAt, job.plan.chance.between(1, 6)), atTheDoor(demo, job));
}

/** A flourish, as somebody draws it with a finger. */
const DRAWN =
  '[[40,140,60,90,95,50,120,70,110,120,90,150,130,110,170,90,190,120,210,100,240,95,260,125,300,80,330,120,380,100],[60,165,420,150]]';

/** The clients could not sign in time and are on their way: the owner lets the pair begin, and they sign at the house. */
const letsStart =
  (job: PlayedJob): Scene =>
  async (stage) => {
    await stage.act(OWNER, overrideGate, {
      id: stage.newId(),
      visitId: job.visitId,
      reason: 'The clients are on the road without signal and sign at the house before the walk-through.',
    });
    stage.at(minutesAfter(job.endsAt, -25), async (later) => {
      const { sha256 } = (await newestAgreement(later.reader, job.jobId))!;
      for (const { id, name } of await signersOf(later.reader, job.agreementId)) {
        await later.act(actorOf(byId(job.first)), recordPaperSignature, {
          id: later.newId(),
          signerId: id,
          method: 'on_site_device',
          name,
          read: true,
          consent: true,
          sha256,
          word: formatWord(sha256, id),
          strokes: DRAWN,
          interpreter: '',
          photo: null,
          keptWhere: '',
          signedAt: null,
          device: 'tablet of the pair',
          directory: null,
        });
      }
    });
  };

const ROOMS = ['kitchen', 'bath', 'garage', 'outside', 'basement'];

/** Items that the facts suggest, and the ground-fault devices that the pair finds. */
function itemsOf(stage: Stage, { plan, facts }: PlayedJob): { id: string; kind: ItemKind; label: string }[] {
  const devices =
    plan.role === 'freezer'
      ? ['upstairs bath', 'kitchen']
      : ROOMS.slice(0, plan.chance.between(1, (facts.yearBuilt ?? 1960) > 1985 ? 4 : 2));
  const found = devices.map((room) => ({ kind: 'ground_fault_device' as const, label: room }));
  const suggested = suggestItems(facts).filter(({ kind }) => kind !== 'ground_fault_device');
  return [...suggested, ...found].map((item) => ({ id: stage.newId(), ...item }));
}

const WINTER = [12, 1, 2, 3];

const atTheDoor =
  (demo: DemoContext, job: PlayedJob): Scene =>
  async (stage) => {
    const { plan, first, second } = job;
    const asked = (await missingAcknowledgements(stage.reader, stage.now())).filter(
      ({ personId }) => personId === first || personId === second,
    );
    await drivesThere(stage, job);
    await milesAdd(demo, stage, job);
    const recordId = stage.newId();
    const acknowledged = asked.map(({ personId, revisionId }) => ({ personId, revisionId }));
    await stage.act(actorOf(byId(first)), openRecord, {
      id: recordId,
      visitId: job.visitId,
      items: itemsOf(stage, job),
      systems: [],
      acknowledged,
    });
    const steps = await issuedSteps(stage.reader, recordId);
    const context: FindingContext = {
      chance: plan.chance,
      winter: WINTER.includes(Number(dayOf(job.startsAt).slice(5, 7))) && plan.chance.odds(0.5),
      vacant: job.facts.occupied === 'vacant',
      counts: new Map(),
      sound: plan.role === 'freezer',
    };
    const defects: Defect[] = [];
    for (const person of [first, second])
      recordsOwnPart(stage, job, { recordId, person, steps: steps.filter((step) => isHis(step, person, job)), context, defects });
    const ends =
      plan.role === 'stopped'
        ? ({ at: minutesAfter(middleOf(stage, job), 8), as: 'stopped_for_safety' } as const)
        : ({ at: minutesAfter(job.endsAt, -2), as: 'complete' } as const);
    stage.at(ends.at, async (later) => void (await later.act(actorOf(byId(first)), closeVisit, { recordId, endedAs: ends.as })));
    stage.at(minutesAfter(job.endsAt, plan.chance.between(4, 45)), async (later) => {
      await bothSignOff(later, job, recordId);
      await later.act(actorOf(byId(first)), sealRecord, { recordId });
    });
    if (plan.role !== 'stopped') reportIsWritten(stage, job, defects);
    callbackMayCome(demo, stage, job, recordId);
  };

/** Both record what is checked twice; of the rest the first takes the technical systems and the second the house. */
const FIRSTS = ['arrival', 'roof', 'attic', 'electrical', 'heating', 'cooling', 'leaving'];
const isHis = (step: IssuedStep, person: string, { first }: PlayedJob): boolean =>
  step.partnerCheck || (step.body.who === 'first' || FIRSTS.includes(step.system) ? person === first : person !== first);

const middleOf = (stage: Stage, job: PlayedJob): Date =>
  minutesAfter(stage.now(), Math.floor((job.endsAt.getTime() - stage.now().getTime()) / 120_000));

type Part = { recordId: string; person: string; steps: IssuedStep[]; context: FindingContext; defects: Defect[] };

/** Two batches per person: one from the middle of the visit, one before the end, which a visit that is stopped does not come to. */
function recordsOwnPart(stage: Stage, job: PlayedJob, part: Part): void {
  const half = Math.ceil(part.steps.length * 0.55);
  const shift = part.person === job.first ? 0 : 1;
  const opened = stage.now();
  const middle = minutesAfter(middleOf(stage, job), shift);
  stage.at(middle, records(part, part.steps.slice(0, half), { from: opened, seq: 1 }));
  if (job.plan.role !== 'stopped')
    stage.at(minutesAfter(job.endsAt, -6 + shift), records(part, part.steps.slice(half), { from: middle, seq: half + 1 }));
}

const records =
  (part: Part, steps: readonly IssuedStep[], since: { from: Date; seq: number }): Scene =>
  async (stage) => {
    const span = stage.now().getTime() - since.from.getTime();
    const entries = steps.map((step, at): EntryInput => {
      const { defect, ...found } = find(step, part.context);
      if (defect !== null) part.defects.push({ stepKey: step.stepKey, itemId: step.itemId, text: defect });
      const observedAt = new Date(since.from.getTime() + Math.floor((span * (at + 1)) / (steps.length + 1)));
      return {
        ...found,
        id: stage.newId(),
        packageId: step.packageId,
        stepKey: step.stepKey,
        itemId: step.itemId,
        observedBy: part.person,
        observedAt: observedAt.toISOString(),
        observedApprox: false,
        deviceSeq: since.seq + at,
        corrects: null,
      };
    });
    const { results } = await stage.act(actorOf(byId(part.person)), recordEntries, { recordId: part.recordId, entries });
    const refused = results.find(({ stored }) => !stored);
    if (refused) throw new Error(`an entry of the demo was refused: ${refused.sentence}`);
  };
