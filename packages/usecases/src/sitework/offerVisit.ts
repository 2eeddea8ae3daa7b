// Hands out ahead what a visit is started with, so that its record can be opened without signal and is then taken in as it was opened.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { addOffer } from '@backsight/store/sitework/offline';
import { siteworkRules } from '@backsight/store/sitework/rules';
import { findVisit } from '@backsight/store/sitework/visit';
import { gateOf } from '../agreements/steps/gate.ts';
import { revisionsInForce } from '../procedures/steps/inForce.ts';
import type { Act, Work } from '../run.ts';
import { isMember } from './steps/loadRecord.ts';
import { basisOfVisit } from './steps/offer.ts';

/** Refusals: not-on-this-visit, visit-not-booked. */
export const offerVisit: Act<{ visitId: string }, { id: string }> = { operation: 'sitework.offer', run: offer };

async function offer(work: Work, { visitId }: { visitId: string }): Promise<Outcome<{ id: string }>> {
  const visit = await findVisit(work.tx, visitId);
  if (!visit || work.actor.kind !== 'person') return refuse('not-found', { thing: 'visit' });
  if (!isMember(visit, work.actor)) return refuse('not-on-this-visit');
  if (visit.state !== 'booked' && visit.state !== 'on_site') return refuse('visit-not-booked', { state: visit.state });
  const gate = await gateOf(work.tx, visitId);
  const id = work.newId();
  await addOffer(work.tx, {
    id,
    visitId,
    personId: work.actor.id,
    revisions: (await revisionsInForce(work.tx, work.now)).map(({ revisionId }) => revisionId),
    gateMissing: gate.open ? [] : gate.missing,
    body: basisOfVisit(visit, await siteworkRules(work.tx)),
    recordedAt: work.now,
  });
  await work.did('visit', visitId, { offered: id, missing: gate.missing });
  return accept({ id });
}
