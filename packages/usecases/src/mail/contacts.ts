// Contacts with the people of a job: logged in one act, listed beside the mails; and whom to call in the next days.
import { contactProblem, textFor, type Channel, type ContactOutcome } from '@backsight/domain/mail/contact';
import { appointmentInWords } from '@backsight/domain/agreements/facts';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findCallback } from '@backsight/store/callbacks';
import type { Reader } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';
import { contactableOf, contactsOfJob, peopleToCall, saveContact, type ToCall } from '@backsight/store/mail/contacts';
import { keepText } from '@backsight/store/text';
import type { Act, Actor, Work } from '../run.ts';

export type ContactInput = {
  id: string;
  jobId: string;
  callbackId: string | null;
  partyId: string;
  channel: Channel;
  outcome: ContactOutcome;
  words: string | null;
  /** When it was made; null: just now. */
  happenedAt: string | null;
};

/** Refusals: contact-not-of-job, contact-ahead. */
export const logContact: Act<ContactInput, { id: string }> = { operation: 'mail.log-contact', run: log };

async function log(work: Work, { words, happenedAt, ...input }: ContactInput): Promise<Outcome<{ id: string }>> {
  if (work.actor.kind !== 'person') return refuse('not-allowed');
  const parties = await contactableOf(work.tx, input.jobId);
  if (!parties) return refuse('not-found', { thing: 'job' }, 'jobId');
  if (input.callbackId !== null && !(await mayName(work, input.callbackId, input.jobId))) return refuse('not-found', { thing: 'callback' });
  const at = happenedAt === null ? work.now : new Date(happenedAt);
  const problem = contactProblem({ partyId: input.partyId, happenedAt: at }, { parties, now: work.now });
  if (problem) return problem;
  const textId = words === null ? null : await keepText(work.tx, work.newId(), words, work.now);
  await saveContact(work.tx, { ...input, textId, actorId: work.actor.id, happenedAt: at, recordedAt: work.now });
  const { id, jobId, partyId, channel, outcome } = input;
  await work.did('job', jobId, { contactId: id, partyId, channel, outcome });
  return accept({ id });
}

const isOwner = (actor: Actor): boolean => actor.kind === 'person' && actor.roles.includes('owner');

async function mayName({ tx, actor }: Work, callbackId: string, jobId: string): Promise<boolean> {
  const callback = await findCallback(tx, callbackId);
  return callback?.jobId === jobId && (!callback.ownerOnly || isOwner(actor));
}

/** Every contact of a job, and how its people are reached. */
export async function readContacts(reader: Reader, jobId: string, by: { actor: Actor; now: Date }) {
  const people = await withTexts(reader, await peopleToCall(reader, { jobId, from: by.now, to: by.now }));
  const contacts = await contactsOfJob(reader, jobId, isOwner(by.actor));
  return { people, contacts: contacts.map((row) => ({ ...row, at: row.at.toISOString() })) };
}

const DAY = 86_400_000;
/** A visit that has begun is still called about for some hours. */
const BACK_MS = DAY / 4;

/** Everybody with a visit in the next days. */
export async function readPeopleToCall(reader: Reader, ask: { now: Date; days: number }) {
  const now = ask.now.getTime();
  const found = await peopleToCall(reader, { jobId: null, from: new Date(now - BACK_MS), to: new Date(now + ask.days * DAY) });
  return withTexts(reader, once(found));
}

/** Somebody in two roles on a job is one person to call. */
const once = (people: readonly ToCall[]): ToCall[] =>
  [...new Map(people.toReversed().map((one) => [`${one.jobId} ${one.partyId}`, one])).values()].toReversed();

async function withTexts(reader: Reader, people: readonly ToCall[]) {
  const firm = await findFirm(reader);
  return people.map(({ startsAt, endsAt, ...person }) => {
    const [from, to] = [startsAt?.toISOString() ?? null, endsAt?.toISOString() ?? null];
    const appointment = from && to ? appointmentInWords({ startsAt: from, endsAt: to }, firm?.zone ?? 'UTC') : null;
    const text = textFor({ firm: firm?.name ?? '', firmPhone: firm?.phone ?? '', address: person.address, appointment });
    return { ...person, startsAt: from, text };
  });
}
