// A danger as whoever is alerted sees it: where, who spoke and how to reach them, who was alerted when, and who has it.
import type { Role } from '@backsight/domain/people/roles';
import { nextToAlert } from '@backsight/domain/callbacks/onCall';
import { findCallback, wordsOf } from '@backsight/store/callbacks';
import { chainsOf, type ChainRow } from '@backsight/store/callbacks/danger';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import type { Reader } from '@backsight/store/database';
import { findParties } from '@backsight/store/jobs/parties';
import { alertMinutes } from './steps/danger.ts';
import { mayAnswer } from './steps/mayAnswer.ts';
import { chainFor } from './steps/onCall.ts';

const iso = (at: Date | null): string | null => at?.toISOString() ?? null;
const told = ({ id, startedAt, answeredAt, answeredBy, endedAt, alerts }: ChainRow) => ({
  ...{ id, answeredBy, startedAt: startedAt.toISOString(), answeredAt: iso(answeredAt), endedAt: iso(endedAt) },
  alerts: alerts.map(({ n, name, at }) => ({ n, name, at: new Date(at).toISOString() })),
});

/** Null when there is no such callback for this person. The newest chain comes first. */
export async function readDanger(
  reader: Reader,
  { id, personId, roles, now }: { id: string; personId: string; roles: readonly Role[]; now: Date },
) {
  const callback = await findCallback(reader, id);
  if (!callback || !(await mayAnswer(reader, callback, { id: personId, roles, now }))) return null;
  const job = (await findJobForCallback(reader, callback.jobId))!;
  const [party] = callback.partyId === null ? [] : await findParties(reader, [callback.partyId]);
  const chains = await chainsOf(reader, id);
  const { number, state, safety, speaker, system, place, textId } = callback;
  return {
    ...{ id, number, state, safety, speaker, system, place, address: job.address, town: job.town },
    words: (await wordsOf(reader, textId)) ?? '(erased)',
    party: party ? { name: party.name, phone: party.phone } : null,
    chains: chains.map(told),
    next: await nextOf(reader, chains[0], callback.ownerOnly, now),
  };
}

/** Who is alerted next, and when; null when nobody is. */
async function nextOf(reader: Reader, chain: ChainRow | undefined, ownerOnly: boolean, now: Date) {
  const last = chain?.alerts.at(-1);
  if (!chain || !last || chain.answeredAt !== null || chain.endedAt !== null) return null;
  const people = await chainFor(reader, now, ownerOnly);
  const id = nextToAlert(
    people.map((person) => person.id),
    chain.alerts.map(({ personId }) => personId),
  );
  const at = new Date(Date.parse(last.at) + (await alertMinutes(reader, now)) * 60_000).toISOString();
  return { name: people.find((person) => person.id === id)!.name, at };
}
