// Before a visit starts: the gate, what is to acknowledge, the things that steps will be done for.
import { refuse, type Outcome, accept } from '@backsight/domain/shared/outcome';
import { suggestItems } from '@backsight/domain/sitework/items';
import type { Reader } from '@backsight/store/database';
import { missingAcknowledgements } from '@backsight/store/procedures';
import { findVisit, visitsOfJob } from '@backsight/store/sitework/visit';
import { gateOf } from '../agreements/steps/gate.ts';
import { revisionsInForce } from '../procedures/steps/inForce.ts';
import type { Actor } from '../run.ts';
import { askedOf, visitJson } from './readDay.ts';
import { isMember, leads } from './steps/loadRecord.ts';

/** For the pair and those who lead. `systems` may be looked at again on visits that are no inspections. */
export async function readStart(reader: Reader, input: { visitId: string; actor: Actor; now: Date }) {
  const visit = await findVisit(reader, input.visitId);
  if (!visit) return refuse('not-found', { thing: 'visit' });
  if (!isMember(visit, input.actor) && !leads(input.actor)) return refuse('not-on-this-visit');
  const { missing, sentences, warnings, open, overrides } = await gateOf(reader, visit.id);
  const systems = (await revisionsInForce(reader, input.now))
    .filter(({ system }) => system !== 'arrival' && system !== 'leaving')
    .map(({ system, title }) => ({ system, title }));
  const acknowledgements = askedOf(visit, await missingAcknowledgements(reader, input.now));
  return accept({
    visit: visitJson(visit),
    gate: { missing, sentences, warnings, open, overriddenBecause: overrides.map(({ reason, by }) => `${reason} (${by})`) },
    acknowledgements,
    items: visit.kind === 'inspection' ? suggestItems(visit.facts) : [],
    systems: visit.kind === 'inspection' ? [] : systems,
  });
}

type JobVisit = ReturnType<typeof visitJson> & { mine: boolean };

/** Visits of a job with their records, for the page of the job's record. */
export async function readVisitsOfJob(reader: Reader, input: { jobId: string; actor: Actor }): Promise<Outcome<JobVisit[]>> {
  const visits = await visitsOfJob(reader, input.jobId);
  return visits.length === 0
    ? refuse('not-found', { thing: 'visit of this job' })
    : accept(visits.map((visit) => ({ ...visitJson(visit), mine: isMember(visit, input.actor) })));
}
