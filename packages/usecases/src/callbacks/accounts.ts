// Accounts of the pair: asked for by whoever judges, given by each of the two without seeing anything of the other's.
import { mayAsk, mayGive } from '@backsight/domain/callbacks/account';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findCallback, lockCallback, type CallbackRow } from '@backsight/store/callbacks';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import { accountRequests, accountsOf, saveAccount, saveRequest } from '@backsight/store/callbacks/opinions';
import type { Reader } from '@backsight/store/database';
import { listPeople } from '@backsight/store/people';
import { keepText } from '@backsight/store/text';
import type { Act, Work } from '../run.ts';
import { accountShown } from './steps/accounts.ts';
import { actorId, record, withCallback, type Done } from './steps/callback.ts';

type AskInput = { id: string; requestId: string; personId: string; publicUrl: string };

export const askAccount: Act<AskInput, Done> = {
  operation: 'callbacks.ask-account',
  run: (work, input) => withCallback(work, input.id, (callback) => ask(work, callback, input)),
};

async function ask(work: Work, callback: CallbackRow, { requestId, personId, publicUrl }: AskInput): Promise<Outcome<Done>> {
  const job = (await findJobForCallback(work.tx, callback.jobId))!;
  const person = (await listPeople(work.tx)).find(({ id }) => id === personId);
  if (!person) return refuse('not-found', { thing: 'person' }, 'personId');
  const asked = (await accountRequests(work.tx, callback.id)).some((one) => one.personId === personId);
  const onTheJob = job.pair.some(({ id }) => id === personId);
  const may = mayAsk({ state: callback.state, onTheJob, askedAlready: asked, name: person.name });
  if (!may.ok) return may;
  await saveRequest(work.tx, { id: requestId, callbackId: callback.id, personId, askedBy: actorId(work.actor)!, at: work.now });
  await work.mail({
    messageKey: `account:${requestId}`,
    toAddress: person.email,
    toName: person.name,
    subject: `What you saw and did on job ${job.number}`,
    aboutKind: 'account',
    aboutId: requestId,
    body: `You were on job ${job.number}, ${job.address}, ${job.town}. Please write down what you saw and did there, in your own words:\n\n${publicUrl}/accounts/${callback.id}\n\nPlease write it before you speak with anybody about it. Nobody asks whose fault anything is.`,
  });
  return record(work, callback, { kind: 'account_asked', state: callback.state, details: { personId } });
}

type GiveInput = { id: string; accountId: string; seen: string; did: string; further: boolean };

/** Whoever was asked gives it, also in a matter that is the owner's alone. */
export const giveAccount: Act<GiveInput, { id: string; seq: number }> = {
  operation: 'callbacks.give-account',
  run: async (work, input) => {
    const callback = await lockCallback(work.tx, input.id);
    return callback ? give(work, callback, input) : refuse('account-not-asked');
  },
};

async function give(work: Work, callback: CallbackRow, input: GiveInput): Promise<Outcome<{ id: string; seq: number }>> {
  const me = actorId(work.actor);
  const mine = (await accountRequests(work.tx, callback.id)).find(({ personId }) => personId === me);
  const seq = mayGive({ asked: mine !== undefined, given: mine?.given ?? 0 }, input.further);
  if (!seq.ok) return seq;
  await saveAccount(work.tx, {
    id: input.accountId,
    requestId: mine!.id,
    seq: seq.value,
    seenTextId: await keepText(work.tx, work.newId(), input.seen, work.now),
    didTextId: await keepText(work.tx, work.newId(), input.did, work.now),
    at: work.now,
  });
  const noted = await record(work, callback, { kind: 'account_given', state: callback.state, details: { accountId: input.accountId } });
  return noted.ok ? accept({ id: input.accountId, seq: seq.value }) : noted;
}

/** What somebody who was asked sees: where and when it was, and the own accounts. Refusal: account-not-asked. */
export async function readMyAccount(reader: Reader, { id, personId }: { id: string; personId: string | null }) {
  const mine = (await accountRequests(reader, id)).find((one) => one.personId === personId);
  if (!mine) return refuse('account-not-asked');
  const callback = (await findCallback(reader, id))!;
  const job = (await findJobForCallback(reader, callback.jobId))!;
  return accept({
    id,
    askedBy: mine.askedBy,
    askedAt: mine.askedAt.toISOString(),
    job: { number: job.number, address: job.address, town: job.town, inspectedOn: job.inspectedOn },
    place: callback.place,
    accounts: (await accountsOf(reader, id, personId)).map(accountShown),
  });
}
