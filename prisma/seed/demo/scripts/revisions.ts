// A callback changes a procedure: corrective action, draft, second person, in force, acknowledged by the inspectors.
import type { Question } from '@backsight/domain/procedures/questions';
import type { Step } from '@backsight/domain/procedures/step';
import { createAction, linkRevision } from '@backsight/usecases/callbacks/correctiveActions';
import { finishReadyActions } from '@backsight/usecases/callbacks/finishReadyActions';
import { acknowledgeRevision, answerQuestions } from '@backsight/usecases/procedures/acknowledge';
import { approveRevision } from '@backsight/usecases/procedures/approval';
import { changeDraft, draftRevision } from '@backsight/usecases/procedures/drafts';
import { revisionsInForce } from '@backsight/usecases/procedures/steps/inForce';
import { PROCEDURES, revised } from '../../procedures/book.ts';
import { dayOf, minutesAfter } from '../calendar.ts';
import { chanceOf } from '../chance.ts';
import { actorOf, inspectors, type Who, PEOPLE } from '../people.ts';
import type { Scene, Stage } from '../stage.ts';
import { addBusinessDays, shiftDay } from '@backsight/domain/shared/calendar';
import { OWNER, RUTH, type DemoContext } from './context.ts';

export type Change = {
  procedure: string;
  steps: readonly Step[];
  questions: readonly Question[];
  title: string;
  why: string;
  reason: string;
  callbackIds: readonly string[];
  /** Days after the action on which its effect is judged. */ reviewDays?: number;
  /** Who acknowledges only at the start of the next visit, and who not at all. */
  atTheStart: readonly Who[];
  never: readonly Who[];
};

/** From the action on the day it is played, over five working days, to the revision in force. */
export const changeProcedure =
  (demo: DemoContext, change: Change): Scene =>
  async (stage) => {
    const actionId = stage.newId();
    await stage.act(RUTH, createAction, {
      id: actionId,
      kind: 'revision',
      title: change.title,
      why: change.why,
      ownerId: PEOPLE.ruth.id,
      dueOn: shiftDay(dayOf(stage.now()), 30),
      reviewOn: shiftDay(dayOf(stage.now()), change.reviewDays ?? 120),
      reviewerId: PEOPLE.ruth.id,
      callbackIds: [...change.callbackIds],
    });
    stage.at(demo.calendar.at(workdayAfter(demo, stage, 1), 9, 15), draftIt(demo, change, actionId));
  };

/** The nth day after today on which the firm works. */
const workdayAfter = (demo: DemoContext, stage: Stage, count: number): string =>
  addBusinessDays(dayOf(stage.now()), count, demo.calendar.business);

const draftIt =
  (demo: DemoContext, change: Change, actionId: string): Scene =>
  async (stage) => {
    const before = (await revisionsInForce(stage.reader, stage.now())).find(({ procedureKey }) => procedureKey === change.procedure)!;
    const id = stage.newId();
    const { reason } = change;
    const procedure = PROCEDURES.find(({ key }) => key === change.procedure)!;
    const { steps } = revised({ ...procedure, steps: before.steps }, change.steps);
    await stage.act(RUTH, draftRevision, { id, procedureId: before.procedureId, reason });
    await stage.act(RUTH, changeDraft, { id, version: 1, reason, basedOnId: before.revisionId, steps, questions: change.questions });
    await stage.act(RUTH, linkRevision, { id: actionId, revisionId: id });
    stage.at(demo.calendar.at(workdayAfter(demo, stage, 2), 10, 40), approveIt(demo, change, id));
  };

const approveIt =
  (demo: DemoContext, change: Change, id: string): Scene =>
  async (stage) => {
    const now = stage.now();
    const inForceFrom = demo.calendar.at(workdayAfter(demo, stage, 2), 7);
    await stage.act(OWNER, approveRevision, {
      id,
      version: 2,
      inForceFrom: inForceFrom.toISOString(),
      acknowledgeBy: null,
      graceReason: null,
      publicUrl: demo.publicUrl,
    });
    const chance = chanceOf(change.title.length);
    const left = [...change.atTheStart, ...change.never].map((who) => PEOPLE[who].id);
    const nextDay = demo.calendar.at(workdayAfter(demo, stage, 1), 7, 10);
    for (const one of inspectors.filter((person) => !left.includes(person.id))) {
      stage.at(
        minutesAfter(chance.odds(0.5) ? now : nextDay, chance.between(20, 60 * 8)),
        says(id, actorOf(one), change.questions, chance.odds(0.3)),
      );
    }
    stage.at(
      minutesAfter(inForceFrom, 1),
      async (later) => void (await finishReadyActions({ database: { read: later.reader }, runner: later.runner, clock: later.now })),
    );
  };

/** Answers the questions, some people wrong at first, and acknowledges a few minutes later. */
const says =
  (id: string, who: ReturnType<typeof actorOf>, questions: readonly Question[], wrongAtFirst: boolean): Scene =>
  async (stage) => {
    const answers = questions.map(({ key, right, options }) => ({ key, right, wrong: options.find((one) => one.key !== right)!.key }));
    const give = (scene: Stage, wrong: boolean) =>
      scene.act(who, answerQuestions, {
        id,
        answers: answers.map((one, at) => ({ question: one.key, option: wrong && at === 0 ? one.wrong : one.right })),
      });
    if (questions.length > 0) await give(stage, wrongAtFirst);
    stage.at(minutesAfter(stage.now(), 4), async (later) => {
      if (questions.length > 0 && wrongAtFirst) await give(later, false);
      await later.act(who, acknowledgeRevision, { id, where: 'ahead', happenedAt: null });
    });
  };
