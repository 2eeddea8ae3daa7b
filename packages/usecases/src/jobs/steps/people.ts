// The people who stand on a job: those on file, and those who are new.
import { mayStand, ownerAsked } from '@backsight/domain/jobs/decide';
import type { PartyRole } from '@backsight/domain/jobs/words';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findParties, saveJobParties, saveParties } from '@backsight/store/jobs/parties';
import type { Work } from '../../run.ts';

/** `id` of somebody on file, or of somebody new with a name. One person may stand in several roles. */
export type PartyInput = {
  id: string;
  role: PartyRole;
  name?: string | undefined;
  email?: string | null | undefined;
  phone?: string | null | undefined;
  minor?: boolean | undefined;
  mayReceiveReport?: boolean | undefined;
  consentAt?: string | null | undefined;
};
export type Standing = { partyId: string; role: PartyRole; name: string; email: string | null };

/** Whether these people may stand on a job as asked, and who they are. Adds nobody yet. */
export async function knowPeople(work: Work, inputs: readonly PartyInput[]): Promise<Outcome<Standing[]>> {
  const known = new Map(
    (
      await findParties(
        work.tx,
        inputs.map(({ id }) => id),
      )
    ).map((party) => [party.id, party]),
  );
  const byOwner = work.actor.kind === 'person' && work.actor.roles.includes('owner');
  const asked = ownerAsked([...known.values()], byOwner);
  if (!asked.ok) return asked;
  for (const input of inputs) {
    if (!known.has(input.id) && !inputs.some(({ id, name }) => id === input.id && name !== undefined))
      return refuse('not-found', { thing: 'person' }, 'parties');
    const stands = mayStand(input.role, input.mayReceiveReport ?? input.role === 'client', input.consentAt ?? null);
    if (!stands.ok) return stands;
  }
  return accept(
    inputs.map(({ id, role }) => {
      const given = inputs.find((one) => one.id === id && one.name !== undefined);
      return {
        partyId: id,
        role,
        name: known.get(id)?.name ?? given!.name!,
        email: known.has(id) ? known.get(id)!.email : (given?.email ?? null),
      };
    }),
  );
}

/** Files new people and gives everybody their role on the job. */
export async function standOnJob(work: Work, jobId: string, inputs: readonly PartyInput[]): Promise<void> {
  const fresh = new Map(
    inputs
      .filter(({ name }) => name !== undefined)
      .map((p) => [
        p.id,
        { id: p.id, name: p.name!, email: p.email ?? null, phone: p.phone ?? null, minor: p.minor ?? false, recordedAt: work.now },
      ]),
  );
  await saveParties(work.tx, [...fresh.values()]);
  await saveJobParties(
    work.tx,
    jobId,
    inputs.map((input) => ({
      id: work.newId(),
      partyId: input.id,
      role: input.role,
      mayReceiveReport: input.mayReceiveReport ?? input.role === 'client',
      consentAt: input.consentAt ? new Date(input.consentAt) : null,
    })),
  );
}
