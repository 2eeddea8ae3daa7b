// The moves of one callback, as the people of the firm make them.
import { isBusinessDay, nextBusinessDay, shiftDay } from '@backsight/domain/shared/calendar';
import type { CheckOutcome, Severity } from '@backsight/domain/callbacks/after';
import type { Proposal } from '@backsight/domain/callbacks/approval';
import type { Cause, ClearanceKind } from '@backsight/domain/callbacks/words';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import { recordClearance, recordRecovery, setReserve } from '@backsight/usecases/callbacks/callbackMoney';
import { finishRemedy, payRemedy } from '@backsight/usecases/callbacks/carryOut';
import { answerAfterCheck } from '@backsight/usecases/callbacks/afterCheck';
import { addEstimate } from '@backsight/usecases/callbacks/estimates';
import { notifyInsurer } from '@backsight/usecases/callbacks/insurer';
import { concludeCallback } from '@backsight/usecases/callbacks/concludeCallback';
import { assessCallback } from '@backsight/usecases/callbacks/assessCallback';
import type { SameDay } from '@backsight/domain/callbacks/legal';
import { tickSameDay } from '@backsight/usecases/callbacks/legalPapers';
import { pauseCallback } from '@backsight/usecases/callbacks/pauses';
import { answerDanger } from '@backsight/usecases/callbacks/safety';
import { acknowledgeCallback, addNote, closeCallback } from '@backsight/usecases/callbacks/moveCallback';
import { receiveCallback, type ReceiveInput } from '@backsight/usecases/callbacks/receiveCallback';
import { decideRemedy, proposeRemedy } from '@backsight/usecases/callbacks/remedies';
import type { Actor } from '@backsight/usecases/run';
import { dayOf } from '../calendar.ts';
import type { Scene, Stage } from '../stage.ts';
import { OFFICE, OWNER, RUTH, TOMAS, type DemoContext, type PlayedJob } from './context.ts';

const idOf = (actor: Actor): string => (actor.kind === 'person' ? actor.id : '');

type Told = Omit<ReceiveInput, 'id' | 'jobId' | 'safety' | 'partyId'> & { safety?: boolean };

/** One callback in the making: `on` places a scene some days after the inspection, on a working day, and after the scene placed before. */
export type Case = {
  id: string;
  job: PlayedJob;
  recordId: string;
  client: string;
  /** The lead inspector who was not there. */
  lead: Actor;
  inspectedOn: string;
  /** The day itself, or the next one on which the firm works. */
  workingDay: (days: number) => string;
  on: (days: number, hour: number, scene: Scene, minute?: number) => void;
};

export function openCase(demo: DemoContext, stage: Stage, job: PlayedJob, recordId: string): Case {
  const inspectedOn = dayOf(job.startsAt);
  const { business, at } = demo.calendar;
  const workingDay = (days: number): string => {
    const day = shiftDay(inspectedOn, days);
    return isBusinessDay(day, business) ? day : nextBusinessDay(day, business);
  };
  const wasThere = (actor: Actor): boolean => actor.kind === 'person' && (actor.id === job.first || actor.id === job.second);
  let last = new Date(0);
  const on: Case['on'] = (days, hour, scene, minute = 0) => {
    let day = workingDay(days);
    while (at(day, hour, minute) <= last) day = nextBusinessDay(day, business);
    last = at(day, hour, minute);
    stage.at(last, scene);
  };
  return {
    id: stage.newId(),
    job,
    recordId,
    client: job.caller.clients[0]!.id,
    lead: wasThere(RUTH) ? TOMAS : RUTH,
    inspectedOn,
    workingDay,
    on,
  };
}

export const receive =
  (c: Case, told: Told, by: Actor = OFFICE): Scene =>
  async (stage) => {
    const fromClient = told.speaker === 'client' ? { partyId: c.client } : {};
    await stage.act(by, receiveCallback, { safety: false, ...told, ...fromClient, id: c.id, jobId: c.job.jobId });
  };
export const acknowledge =
  (c: Case, words: string, by: Actor = OFFICE): Scene =>
  async (stage) =>
    void (await stage.act(by, acknowledgeCallback, { id: c.id, words }));
/** Whoever is alerted of the danger says "I have it". */
export const haveIt =
  (c: Case, by: Actor): Scene =>
  async (stage) =>
    void (await stage.act(by, answerDanger, { id: c.id }));
export const waitForClient =
  (c: Case, words: string, by: Actor = OFFICE): Scene =>
  async (stage) =>
    void (await stage.act(by, pauseCallback, { id: c.id, words }));
/** Ticks something of the list of the day on which a legal paper comes. */
export const tick =
  (c: Case, item: SameDay, words: string): Scene =>
  async (stage) =>
    void (await stage.act(OWNER, tickSameDay, { id: c.id, item, day: dayOf(stage.now()), words }));
export const lookInto =
  (c: Case, words: string, by: Actor = c.lead, severity: Severity = 'loss'): Scene =>
  async (stage) =>
    void (await stage.act(by, assessCallback, { id: c.id, severity, atOnce: false, assigneeId: idOf(by), words }));
export const note =
  (c: Case, words: string, by: Actor = OFFICE): Scene =>
  async (stage) =>
    void (await stage.act(by, addNote, { id: c.id, words }));
export const close =
  (c: Case, words: string, by: Actor = c.lead): Scene =>
  async (stage) =>
    void (await stage.act(by, closeCallback, { id: c.id, words }));
/** Once the days after closing are over it is asked whether it held. */
export const askAgain =
  (c: Case, outcome: CheckOutcome, words: string): Scene =>
  async (stage) =>
    void (await stage.act(c.lead, answerAfterCheck, { id: c.id, outcome, words }));
export const setAside =
  (c: Case, cents: number, words: string, by: Actor = c.lead): Scene =>
  async (stage) =>
    void (await stage.act(by, setReserve, { id: c.id, cents, words }));
export const clear =
  (c: Case, kind: ClearanceKind, words: string): Scene =>
  async (stage) =>
    void (await stage.act(OWNER, recordClearance, { id: c.id, kind, words }));
export const recover =
  (c: Case, cents: number, words: string): Scene =>
  async (stage) =>
    void (await stage.act(OWNER, recordRecovery, {
      id: c.id,
      cents,
      receivedOn: dayOf(stage.now()),
      words,
      source: 'insurer',
      direct: false,
    }));

/** Concludes; `entryOf` finds the entry that shows it. */
export const conclude =
  (c: Case, cause: Cause, words: string, stepKey?: string, entryOf?: (stage: Stage) => Promise<string | undefined>): Scene =>
  async (stage) => {
    const entryId = await entryOf?.(stage);
    const there = (await findJobForCallback(stage.reader, c.job.jobId))!.pair.map(({ id }) => id); // a lead may have fetched a monitor later
    await stage.act(
      [c.lead, RUTH, TOMAS, OWNER].find((one) => !there.includes(idOf(one)))!,
      concludeCallback,
      {
        id: c.id,
        conclusionId: stage.newId(),
        cause,
        words,
        ...(stepKey ? { stepKey } : {}),
        ...(entryId ? { entryId } : {}),
      },
    );
  };

/** Proposes a remedy; above the proposer's limit `approver` says yes some hours later. Then `next` happens with it. */
export const propose = (
  c: Case,
  remedy: Proposal & { estimateId?: string },
  by: Actor = c.lead,
): { remedyId: () => string; scene: Scene } => {
  let remedyId = '';
  return {
    remedyId: () => remedyId,
    scene: async (stage) => {
      remedyId = stage.newId();
      await stage.act(by, proposeRemedy, { ...remedy, id: c.id, remedyId });
    },
  };
};
export const approve =
  (remedyId: () => string, words: string): Scene =>
  async (stage) =>
    void (await stage.act(OWNER, decideRemedy, { remedyId: remedyId(), decision: 'approved', words }));
export const pay =
  (remedyId: () => string): Scene =>
  async (stage) =>
    void (await stage.act(OWNER, payRemedy, { remedyId: remedyId(), paidOn: dayOf(stage.now()) }));
export const carryOut =
  (remedyId: () => string, words: string, by: Actor): Scene =>
  async (stage) =>
    void (await stage.act(by, finishRemedy, { remedyId: remedyId(), words }));

export const notify =
  (c: Case, words: string, by: Actor): Scene =>
  async (stage) => {
    const told = { way: 'e-mail and mail', reference: '', words };
    await stage.act(by, notifyInsurer, { id: c.id, noticeId: stage.newId(), notifiedOn: dayOf(stage.now()), ...told });
  };
export const estimate =
  (c: Case, estimateId: string, told: { contractor: string; license: string; cents: number; scope: string }, by: Actor = OFFICE): Scene =>
  async (stage) =>
    void (await stage.act(by, addEstimate, { ...told, id: c.id, estimateId, estimatedOn: dayOf(stage.now()), file: null, directory: '' }));
