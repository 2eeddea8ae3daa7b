// Who must or must not go together, and who is kept away from a property or from somebody on its jobs.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { mayPairUnder, ordered, type PairingKind } from '@backsight/domain/people/pairing';
import {
  deleteBar,
  findBar,
  findPairing,
  findProperty,
  listPairing,
  saveBar,
  savePairing,
  setPairingEnd,
  type BarKind,
} from '@backsight/store/people/pairing';
import { findPerson } from '@backsight/store/people';
import { findParties } from '@backsight/store/jobs/parties';
import { localDay } from '../firm/steps/localDay.ts';
import type { Act, Work } from '../run.ts';

export type PairingInput = { id: string; kind: PairingKind; aId: string; bId: string; reason: string };

export const addPairing: Act<PairingInput, { id: string }> = { operation: 'people.add-pairing-rule', run: add };

async function add(work: Work, input: PairingInput): Promise<Outcome<{ id: string }>> {
  for (const field of ['aId', 'bId'] as const)
    if (!(await findPerson(work.tx, input[field]))) return refuse('not-found', { thing: 'person' }, field);
  const allowed = mayPairUnder(await listPairing(work.tx), input.kind, input.aId, input.bId);
  if (!allowed.ok) return allowed;
  const [aId, bId] = ordered(input.aId, input.bId);
  const id = await savePairing(work.tx, { id: input.id, kind: input.kind, reason: input.reason, aId, bId });
  await work.did('pairing-rule', id, { kind: input.kind, aId, bId });
  return accept({ id });
}

export const endPairing: Act<{ id: string }, { id: string }> = { operation: 'people.end-pairing-rule', run: end };

async function end(work: Work, { id }: { id: string }): Promise<Outcome<{ id: string }>> {
  const rule = await findPairing(work.tx, id);
  if (!rule || rule.endedOn !== null) return refuse('not-found', { thing: 'pairing rule in force' });
  const { today } = await localDay(work.tx, work.now);
  await setPairingEnd(work.tx, id, today);
  await work.did('pairing-rule', id, { endedOn: today });
  return accept({ id });
}

export type BarInput = { id: string; personId: string; kind: BarKind; aboutId: string; reason: string | null };

/** The reason may stay unsaid. */
export const addBar: Act<BarInput, { id: string }> = { operation: 'people.add-bar', run: bar };

async function bar(work: Work, input: BarInput): Promise<Outcome<{ id: string }>> {
  if (!(await findPerson(work.tx, input.personId))) return refuse('not-found', { thing: 'person' });
  if (!(await isOnFile(work, input)))
    return refuse('not-found', { thing: input.kind === 'property' ? 'property' : 'person on a job' }, 'aboutId');
  await saveBar(work.tx, { ...input, recordedAt: work.now });
  await work.did('person', input.personId, { barId: input.id, [input.kind]: input.aboutId });
  return accept({ id: input.id });
}

const isOnFile = async ({ tx }: Work, { kind, aboutId }: BarInput): Promise<boolean> =>
  kind === 'property' ? (await findProperty(tx, aboutId)) !== null : (await findParties(tx, [aboutId])).length > 0;

export const liftBar: Act<{ id: string }, { id: string }> = { operation: 'people.lift-bar', run: lift };

async function lift(work: Work, { id }: { id: string }): Promise<Outcome<{ id: string }>> {
  const found = await findBar(work.tx, id);
  if (!found) return refuse('not-found', { thing: 'bar' });
  await deleteBar(work.tx, found);
  await work.did('person', found.personId, { barId: id, [found.kind]: found.aboutId });
  return accept({ id });
}
