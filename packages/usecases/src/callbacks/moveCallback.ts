// Moves a callback on: acknowledged, closed, opened again; and a question that turns out to be more.
import { standsAlone } from '@backsight/domain/callbacks/link';
import { mayCloseCases } from '@backsight/domain/callbacks/settlement';
import { mayBecomeCallback, mayClose, moveTo } from '@backsight/domain/callbacks/state';
import type { Kind } from '@backsight/domain/callbacks/words';
import { remediesOf } from '@backsight/store/callbacks';
import { moneyOf } from '@backsight/store/callbacks/money';
import { casesOf } from '@backsight/store/callbacks/settlement';
import type { Act } from '../run.ts';
import { record, withCallback, type Done } from './steps/callback.ts';
import { confirmedConclusion } from './steps/confirmed.ts';
import { endCheck, planCheck } from './steps/planCheck.ts';

export type MoveInput = { id: string; words?: string };
const said = (words?: string) => (words === undefined ? {} : { words });

/** Says that somebody spoke with the one who called. */
export const acknowledgeCallback: Act<MoveInput, Done> = {
  operation: 'callbacks.acknowledge',
  run: (work, { id, words }) =>
    withCallback(work, id, async (callback) => {
      const next = moveTo(callback, 'acknowledge');
      return next.ok ? record(work, callback, { kind: 'acknowledged', state: next.value, ...said(words) }) : next;
    }),
};

/** Closes it: nothing set aside, no remedy open, no case undecided or unpaid. */
export const closeCallback: Act<MoveInput, Done> = {
  operation: 'callbacks.close',
  run: (work, { id, words }) =>
    withCallback(work, id, async (callback) => {
      const confirmed = await confirmedConclusion(work.tx, id);
      if (!confirmed.ok) return confirmed;
      const { reservedCents } = await moneyOf(work.tx, id);
      const openRemedies = (await remediesOf(work.tx, id)).filter(({ state }) => state === 'proposed' || state === 'approved').length;
      const next = mayClose(callback, { reservedCents, openRemedies });
      if (!next.ok) return next;
      const court = mayCloseCases(await casesOf(work.tx, id));
      if (!court.ok) return court;
      const checkOn = await planCheck(work, callback);
      return record(work, callback, { kind: 'closed', state: next.value, details: { checkOn }, ...said(words) });
    }),
};

export const reopenCallback: Act<{ id: string; words: string }, Done> = {
  operation: 'callbacks.reopen',
  run: (work, { id, words }) =>
    withCallback(work, id, async (callback) => {
      const alone = standsAlone(callback);
      const next = alone.ok ? moveTo(callback, 'reopen') : alone;
      if (!next.ok) return next;
      await endCheck(work, id);
      return record(work, callback, { kind: 'reopened', state: next.value, words });
    }),
};

export const becomeCallback: Act<{ id: string; kind: Kind; words: string }, Done> = {
  operation: 'callbacks.become',
  run: (work, { id, kind, words }) =>
    withCallback(work, id, async (callback) => {
      const alone = standsAlone(callback);
      const next = alone.ok ? mayBecomeCallback(callback) : alone;
      return next.ok
        ? record(work, callback, { kind: 'became_callback', state: next.value, details: { kind }, words, changed: { kind } })
        : next;
    }),
};

/** A note for the facts part of the file: contacts, what was seen, what was sent. */
export const addNote: Act<{ id: string; words: string }, Done> = {
  operation: 'callbacks.note',
  run: (work, { id, words }) =>
    withCallback(work, id, (callback) => record(work, callback, { kind: 'note', state: callback.state, words })),
};
