// Lets a visit start although something is missing, with the reason and what was missing kept.
import { mayOverride } from '@backsight/domain/agreements/gate';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { saveOverride } from '@backsight/store/agreements';
import { findVisitForGate } from '@backsight/store/agreements/job';
import type { Act, Work } from '../run.ts';
import { gateOf } from './steps/gate.ts';

export type OverrideInput = { id: string; visitId: string; reason: string };

export const overrideGate: Act<OverrideInput, { id: string; missing: string[] }> = { operation: 'agreements.override', run: override };

async function override(work: Work, input: OverrideInput): Promise<Outcome<{ id: string; missing: string[] }>> {
  const visit = await findVisitForGate(work.tx, input.visitId);
  if (!visit) return refuse('not-found', { thing: 'visit' });
  const { missing } = await gateOf(work.tx, input.visitId);
  const allowed = mayOverride({ missing }, visit, input.reason);
  if (!allowed.ok) return allowed;
  if (work.actor.kind !== 'person') return refuse('not-allowed');
  await saveOverride(work.tx, {
    id: input.id,
    visitId: input.visitId,
    missing,
    reason: input.reason.trim(),
    actorId: work.actor.id,
    at: work.now,
  });
  await work.did('visit', input.visitId, { overrideId: input.id, missing });
  return accept({ id: input.id, missing });
}
