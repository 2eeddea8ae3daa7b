// A legal paper: its days set by hand, the list of the same day ticked, that it was answered; and an injury of somebody of ours. The owner's alone.
import { checkPaper, mayTick, type SameDay } from '@backsight/domain/callbacks/legal';
import { checkInjury, reportDue, type InjuryTimes } from '@backsight/domain/callbacks/workInjury';
import { refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { setPaper, type CallbackRow } from '@backsight/store/callbacks';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import { detailsOf } from '@backsight/store/callbacks/told';
import type { Act, Work } from '../run.ts';
import { record, withCallback, type Done } from './steps/callback.ts';
import { dayAt } from './steps/day.ts';
import { injuriesOf, sameDayOf } from './steps/legal.ts';

const todayOf = async (work: Work, callback: CallbackRow): Promise<string> =>
  dayAt(work.now, (await findJobForCallback(work.tx, callback.jobId))!.zone);

export type TickInput = { id: string; item: SameDay; day: string; words: string };

/** Ticks something of the list with its day and words. Refusals: no-legal-paper, ticked-already, in-the-future, before-service. */
export const tickSameDay: Act<TickInput, Done> = {
  operation: 'callbacks.tick-same-day',
  run: (work, { id, item, day, words }) =>
    withCallback(work, id, async (callback) => {
      const ticked = sameDayOf(await detailsOf(work.tx, id)).flatMap((one) => (one.done ? [one.item] : []));
      const may = mayTick({ ...callback, today: await todayOf(work, callback), ticked }, { item, day });
      if (!may.ok) return may;
      const kind = item === 'insurer' ? 'insurer_told' : 'same_day_done';
      return record(work, callback, { kind, state: callback.state, details: { item, day }, words });
    }),
};

export type PaperInput = { id: string; servedOn: string; serviceWay: string; deadlineOn: string; words: string };

/** Sets the days of the paper anew, as they stand in it or in a later one. Refusals: those of `checkPaper`. */
export const setPaperDays: Act<PaperInput, Done> = {
  operation: 'callbacks.set-paper',
  run: (work, { id, words, ...paper }) =>
    withCallback(work, id, async (callback) => {
      const may = checkPaper(callback.kind, paper, await todayOf(work, callback));
      if (!may.ok) return may;
      await setPaper(work.tx, id, paper);
      return record(work, callback, { kind: 'paper_set', state: callback.state, details: paper, words });
    }),
};

/** The paper was answered: its deadline no longer presses. Refusals: no-legal-paper, paper-answered-already. */
export const answerPaper: Act<{ id: string; day: string; words: string }, Done> = {
  operation: 'callbacks.answer-paper',
  run: (work, { id, day, words }) =>
    withCallback(work, id, async (callback) => {
      const may = mayTick({ ...callback, today: await todayOf(work, callback), ticked: [] }, { item: 'silence', day });
      if (!may.ok) return may;
      const told = await detailsOf(work.tx, id);
      const set = told.findLastIndex(({ kind }) => kind === 'paper_set');
      if (told.slice(set + 1).some(({ kind }) => kind === 'paper_answered')) return refuse('paper-answered-already');
      return record(work, callback, { kind: 'paper_answered', state: callback.state, details: { day }, words });
    }),
};

export type InjuryInput = InjuryTimes & { id: string; injuryId: string; words: string };

/** Somebody of ours was hurt: the federal clock runs. Refusals: no-injury-of-ours, injury-times-backwards. */
export const noteInjury: Act<InjuryInput, Done> = {
  operation: 'callbacks.note-injury',
  run: (work, { id, words, ...injury }) =>
    withCallback(work, id, async (callback) => {
      const may = checkInjury(callback.kind, injury, work.now.toISOString());
      return may.ok
        ? record(work, callback, { kind: 'work_injury', state: callback.state, details: { ...injury, dueAt: reportDue(injury) }, words })
        : may;
    }),
};

/** It was reported to the federal office. Refusals: not-found, injury-reported-already. */
export const reportInjury: Act<{ id: string; injuryId: string; at: string; words: string }, Done> = {
  operation: 'callbacks.report-injury',
  run: (work, { id, injuryId, at, words }) =>
    withCallback(work, id, async (callback): Promise<Outcome<Done>> => {
      const injury = injuriesOf(await detailsOf(work.tx, id)).find((one) => one.injuryId === injuryId);
      if (!injury) return refuse('not-found', { thing: 'injury' });
      if (injury.reportedAt !== null) return refuse('injury-reported-already');
      if (Date.parse(at) > work.now.getTime() || Date.parse(at) < Date.parse(injury.learnedAt))
        return refuse('injury-times-backwards', {}, 'at');
      return record(work, callback, { kind: 'work_injury_reported', state: callback.state, details: { injuryId, at }, words });
    }),
};
