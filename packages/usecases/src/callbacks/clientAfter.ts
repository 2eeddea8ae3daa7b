// What the private link of a letter opens: one question about how a callback was handled, and the appeal; nothing else.
import { appealUntil, mayAnswer, mayAppeal, type ClientAnswer } from '@backsight/domain/callbacks/after';
import { refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findCallback, lockCallback } from '@backsight/store/callbacks';
import { afterRules } from '@backsight/store/callbacks/after';
import {
  answerLinkOf,
  appealsOf,
  clientAnswerOf,
  saveClientAnswer,
  type AnswerLinkRow,
  type AppealRow,
} from '@backsight/store/callbacks/appeals';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import type { Reader } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';
import { keepText } from '@backsight/store/text';
import { sha256 } from '../agreements/steps/digest.ts';
import type { Act, Runner } from '../run.ts';
import { appealFacts } from './steps/appealFacts.ts';
import { record, type Done } from './steps/callback.ts';
import { takeAppeal } from './steps/takeAppeal.ts';

const TOKEN = /^[\w-]{43}$/;

/** The link of a token; what is no token is not looked up. */
const linkOf = async (reader: Reader, token: string): Promise<AnswerLinkRow | null> =>
  TOKEN.test(token) ? answerLinkOf(reader, sha256(token)) : null;

export type AfterPage = {
  firm: string;
  firmPhone: string;
  number: number;
  address: string;
  answer: { answer: string; words: string | null } | null;
  mayAnswer: boolean;
  /** Until when the decision can be appealed; null when it cannot. */
  appealUntil: string | null;
  appeal: Pick<AppealRow, 'result' | 'dueOn'> | null;
};

/** 'ended' when its time is over, null when the link opens nothing. */
export async function openAfterPage(reader: Reader, token: string, now: Date): Promise<AfterPage | 'ended' | null> {
  const link = await linkOf(reader, token);
  if (!link || link.endsAt <= now) return link && 'ended';
  const callback = (await findCallback(reader, link.callbackId))!;
  const [firm, job] = [(await findFirm(reader))!, (await findJobForCallback(reader, callback.jobId))!];
  const [facts, rules] = [await appealFacts(reader, callback, now), await afterRules(reader)];
  const [newest] = await appealsOf(reader, callback.id);
  const said = await clientAnswerOf(reader, callback.id);
  return {
    firm: firm.name,
    firmPhone: firm.phone,
    number: callback.number,
    address: `${job.address}, ${job.town}`,
    answer: said && { answer: said.answer, words: said.words },
    mayAnswer: mayAnswer({ state: callback.state, ...facts }).ok,
    appealUntil: mayAppeal(facts, rules).ok ? appealUntil(facts.toldOn!, rules) : null,
    appeal: newest ? { result: newest.result, dueOn: newest.dueOn } : null,
  };
}

export type AfterAct = { act: 'answer'; answer: ClientAnswer; words: string } | { act: 'appeal'; words: string };

const actByLink: Act<AfterAct & { callbackId: string }, Done> = {
  operation: 'callbacks.by-link',
  run: async (work, input) => {
    const callback = (await lockCallback(work.tx, input.callbackId))!;
    if (input.act === 'appeal')
      return input.words.trim() === ''
        ? refuse('appeal-needs-words', {}, 'words')
        : takeAppeal(work, callback, { way: 'link', words: input.words.trim() });
    const may = mayAnswer({ state: callback.state, ...(await appealFacts(work.tx, callback, work.now)) });
    if (!may.ok) return may;
    const words = input.words.trim();
    const textId = words === '' ? null : await keepText(work.tx, work.newId(), words, work.now);
    await saveClientAnswer(work.tx, { id: work.newId(), callbackId: callback.id, answer: input.answer, textId, at: work.now });
    return record(work, callback, { kind: 'client_answered', state: callback.state });
  },
};

/** Answers or appeals as whoever the link was made for. Refusals: not-found, those of `mayAnswer` and `mayAppeal`. */
export async function actAfterByLink(
  parts: { reader: Reader; runner: Runner; now: Date },
  token: string,
  given: AfterAct,
): Promise<Outcome<Done>> {
  const link = await linkOf(parts.reader, token);
  if (!link || link.endsAt <= parts.now) return refuse('not-found', { thing: 'link' });
  return parts.runner.run(actByLink, { ...given, callbackId: link.callbackId }, { actor: { kind: 'client', id: link.partyId } });
}
