// Settling: an offer until a day, its end, and the release that the other side signs on a private link.
import { renderAgreement } from '@backsight/domain/agreements/render';
import { linkEnds } from '@backsight/domain/agreements/signers';
import { MADE_TO_SETTLE, mayEndOffer, mayLeave, mayOffer, offerState, type OfferEnd } from '@backsight/domain/callbacks/settlement';
import { moveTo } from '@backsight/domain/callbacks/state';
import { paysMoney, REMEDY_STATES, type RemedyKind } from '@backsight/domain/callbacks/words';
import { formatUsd } from '@backsight/domain/shared/money';
import { refuse, type Outcome, type Warning } from '@backsight/domain/shared/outcome';
import { lockAgreementOfJob, saveAgreement, saveSigner } from '@backsight/store/agreements';
import { findJobForAgreement, type JobForAgreement } from '@backsight/store/agreements/job';
import { textInForce } from '@backsight/store/agreements/texts';
import { clearancesOf, type CallbackRow, type RemedyRow } from '@backsight/store/callbacks';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import { findOffer, offersOf, saveOffer, saveOfferEnd, setWaitsForRelease } from '@backsight/store/callbacks/settlement';
import { findFirm } from '@backsight/store/firm';
import { findParties } from '@backsight/store/jobs/parties';
import { keepText } from '@backsight/store/text';
import { writtenFor } from '../agreements/steps/writtenFor.ts';
import { newToken, sha256 } from '../agreements/steps/digest.ts';
import { sendLetter } from '../mail/steps/letter.ts';
import type { Act, Work } from '../run.ts';
import { actorId, record, withCallback, type Done } from './steps/callback.ts';
import { dayAt } from './steps/day.ts';
import { closeRelease, releaseOf } from './steps/release.ts';
import { withRemedy } from './steps/remedy.ts';

/** `words` come before the amount in the letter. */
export type OfferInput = { remedyId: string; offerId: string; validUntil: string; words: string };

/** Offers an approved remedy and mails it. Refusals: those of `mayOffer`, payment-needs-clearance, mail-no-address, no-letter-in-this. */
export const offerRemedy: Act<OfferInput, Done> = {
  operation: 'callbacks.offer',
  run: (work, input) => withRemedy(work, input.remedyId, (remedy, callback) => offer(work, remedy, callback, input)),
};

async function offer(work: Work, remedy: RemedyRow, callback: CallbackRow, input: OfferInput): Promise<Outcome<Done>> {
  const may = moveTo(callback, 'money');
  if (!may.ok) return may;
  const job = (await findJobForCallback(work.tx, callback.jobId))!;
  const today = dayAt(work.now, job.zone);
  const standing = (await offersOf(work.tx, callback.id))
    .filter(({ remedyId }) => remedyId === remedy.id)
    .map((one) => offerState(one, today));
  const fits = mayOffer({ ...remedy, kind: remedy.kind as RemedyKind }, standing, { validUntil: input.validUntil, today });
  if (!fits.ok) return fits;
  const leave = mayLeave(await clearancesOf(work.tx, callback.id));
  if (!leave.ok) return leave;
  if (callback.ownerOnly) return refuse('no-letter-in-this');
  const [party] = callback.partyId === null ? [] : await findParties(work.tx, [callback.partyId]);
  if (!party?.email) return refuse('mail-no-address', { name: party?.name ?? 'Whoever brought it' });
  const { offerId, validUntil } = input;
  await saveOffer(work.tx, {
    ...{ id: offerId, remedyId: remedy.id, cents: remedy.cents, validUntil },
    ...{ recordedBy: actorId(work.actor)!, recordedAt: work.now },
  });
  const firm = (await findFirm(work.tx))!;
  await sendLetter(work, {
    kind: 'settlement_offer',
    messageKey: `offer:${offerId}`,
    to: { name: party.name, email: party.email },
    values: {
      ...{ firm: firm.name, firm_phone: firm.phone, address: `${job.address}, ${job.town}`, number: String(callback.number) },
      offer: `${input.words.trim()}\n\nWe offer ${formatUsd(remedy.cents)}, paid to ${remedy.payee}.`,
      ...{ until: validUntil, settle: MADE_TO_SETTLE },
    },
    about: { kind: 'callback', id: callback.id },
  });
  return record(work, callback, { kind: 'offer_made', state: callback.state, details: { remedyId: remedy.id, offerId, validUntil } });
}

export type EndOfferInput = { offerId: string; end: OfferEnd; words?: string };

/** An offer was accepted, declined or is withdrawn; with a withdrawn one its unsigned release opens nothing any more. */
export const endOffer: Act<EndOfferInput, Done> = {
  operation: 'callbacks.end-offer',
  run: async (work, input) => {
    const seen = await findOffer(work.tx, input.offerId);
    return seen ? withCallback(work, seen.callbackId, (callback) => end(work, callback, input)) : refuse('not-found', { thing: 'offer' });
  },
};

async function end(work: Work, callback: CallbackRow, { offerId, end: kind, words }: EndOfferInput): Promise<Outcome<Done>> {
  const found = (await findOffer(work.tx, offerId))!;
  const job = (await findJobForCallback(work.tx, callback.jobId))!;
  const may = mayEndOffer(offerState(found, dayAt(work.now, job.zone)), kind);
  if (!may.ok) return may;
  const textId = words === undefined ? null : await keepText(work.tx, work.newId(), words, work.now);
  await saveOfferEnd(work.tx, { offerId, kind, textId, actorId: actorId(work.actor), recordedAt: work.now });
  if (kind === 'withdrawn') await closeRelease(work, found.remedyId);
  return record(work, callback, { kind: `offer_${kind}`, state: callback.state, details: { remedyId: found.remedyId, offerId } });
}

export type ReleaseInput = { remedyId: string; publicUrl: string };

/** Writes the release from the text in force and sends each who has to sign a private link. The payment waits for it from now on. */
export const issueRelease: Act<ReleaseInput, Done> = {
  operation: 'callbacks.issue-release',
  run: (work, input) => withRemedy(work, input.remedyId, (remedy, callback) => issue(work, remedy, callback, input.publicUrl)),
};

type Claimant = { id: string; name: string; email: string | null };

/** Every client of the job, when a client speaks; else whoever speaks. */
async function claimants(work: Work, callback: CallbackRow, job: JobForAgreement): Promise<Claimant[]> {
  const clients = job.parties.filter(({ role }) => role === 'client').map(({ partyId, name, email }) => ({ id: partyId, name, email }));
  if (callback.speaker === 'client' && (callback.partyId === null || clients.some(({ id }) => id === callback.partyId))) return clients;
  return callback.partyId === null ? [] : findParties(work.tx, [callback.partyId]);
}

async function mayRelease(work: Work, remedy: RemedyRow, callback: CallbackRow): Promise<Outcome<null>> {
  const may = moveTo(callback, 'money');
  if (!may.ok) return may;
  if (!paysMoney(remedy.kind as RemedyKind)) return refuse('remedy-pays-nothing');
  if (remedy.state !== 'approved')
    return remedy.state === 'done' ? refuse('remedy-state', { state: REMEDY_STATES.done }) : refuse('remedy-not-approved');
  return mayLeave(await clearancesOf(work.tx, callback.id));
}

async function issue(work: Work, remedy: RemedyRow, callback: CallbackRow, publicUrl: string): Promise<Outcome<Done>> {
  const may = await mayRelease(work, remedy, callback);
  if (!may.ok) return may;
  await lockAgreementOfJob(work.tx, callback.jobId);
  const before = await releaseOf(work.tx, remedy.id);
  if (before.state === 'signed') return refuse('release-signed');
  const text = await textInForce(work.tx, 'settlement_release', work.now);
  if (!text) return refuse('no-release-text');
  const job = (await findJobForAgreement(work.tx, callback.jobId))!;
  const people = await claimants(work, callback, job);
  if (people.length === 0) return refuse('claimant-unknown');
  const { template, facts } = await writtenFor(work.tx, job, text, work.now);
  const said = { client: people.map(({ name }) => name).join(' and '), amount: formatUsd(remedy.cents), payee: remedy.payee };
  const body = renderAgreement(
    { body: template, reviewed: text.attorney !== null },
    { ...facts, ...said, callback: String(callback.number) },
  );
  if (!body.ok) return body;
  const agreementId = work.newId();
  await saveAgreement(work.tx, {
    ...{ id: agreementId, jobId: job.id, textId: text.id, body: body.value, sha256: sha256(body.value) },
    ...{ supersedesId: before.paper?.id ?? null, remedyId: remedy.id, at: work.now },
  });
  await setWaitsForRelease(work.tx, remedy.id, true);
  const warnings = await sendLinks(work, { agreementId, job, callback, people, publicUrl });
  await work.did('agreement', agreementId, { remedyId: remedy.id, sha256: sha256(body.value), textId: text.id, signers: people.length });
  const details = { remedyId: remedy.id, agreementId };
  const notReviewed = text.attorney === null ? [NOT_REVIEWED] : [];
  return record(work, callback, { kind: 'release_issued', state: callback.state, details }, [...notReviewed, ...warnings]);
}

const NOT_REVIEWED: Warning = {
  code: 'release-not-reviewed',
  text: 'No attorney has reviewed this text of a settlement release: it says so on top.',
};

type Links = { agreementId: string; job: JobForAgreement; callback: CallbackRow; people: readonly Claimant[]; publicUrl: string };

async function sendLinks(work: Work, { agreementId, job, callback, people, publicUrl }: Links): Promise<Warning[]> {
  for (const person of people) {
    const { token, tokenHash } = newToken();
    const id = work.newId();
    await saveSigner(work.tx, {
      ...{
        id,
        agreementId,
        partyId: person.id,
        capacity: 'self',
        authority: '',
        authoritySha256: null,
        sharedAddress: false,
        sharedWith: '',
      },
      ...{ tokenHash, tokenEndsAt: linkEnds(null, work.now), sentAt: person.email === null ? null : work.now },
    });
    if (person.email === null) continue;
    await sendLetter(work, {
      kind: 'settlement_release',
      messageKey: `release:${id}`,
      to: { name: person.name, email: person.email },
      values: {
        ...{ firm: job.firm, firm_phone: job.firmPhone, address: job.address, number: String(callback.number) },
        ...{ link: `${publicUrl}/client/${token}`, settle: MADE_TO_SETTLE },
      },
      about: { kind: 'callback', id: callback.id },
    });
  }
  const without = people.filter(({ email }) => email === null).map(({ name }) => name);
  return without.length === 0
    ? []
    : [{ code: 'release-without-address', text: `No e-mail address of ${without.join(', ')}: nothing was sent to them.` }];
}
