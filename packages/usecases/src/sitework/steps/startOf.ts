// What a visit needs before it starts: the gate, what is to acknowledge, the things that steps will be done for.
import { suggestItems } from '@backsight/domain/sitework/items';
import type { Reader } from '@backsight/store/database';
import { missingAcknowledgements } from '@backsight/store/procedures';
import { lookAgainOf } from '@backsight/store/sitework/lookAgain';
import type { VisitRow } from '@backsight/store/sitework/visit';
import { gateOf } from '../../agreements/steps/gate.ts';
import { revisionsInForce } from '../../procedures/steps/inForce.ts';
import { askedOf, visitJson } from '../readDay.ts';

/** `systems` may be looked at again on visits that are no inspections; those that brought a callback visit are suggested, with the things of the inspection. */
export async function startOf(reader: Reader, visit: VisitRow, now: Date) {
  const { missing, sentences, warnings, open, overrides } = await gateOf(reader, visit.id);
  const again = await lookAgainOf(reader, visit.jobId);
  const systems = (await revisionsInForce(reader, now))
    .filter(({ system }) => system !== 'arrival' && system !== 'leaving')
    .map(({ system, title }) => ({ system, title, suggested: again.systems.includes(system) }));
  const acknowledgements = askedOf(visit, await missingAcknowledgements(reader, now));
  return {
    visit: visitJson(visit),
    gate: { missing, sentences, warnings, open, overriddenBecause: overrides.map(({ reason, by }) => `${reason} (${by})`) },
    acknowledgements,
    items: visit.kind === 'inspection' ? suggestItems(visit.facts) : again.items,
    systems: visit.kind === 'inspection' ? [] : systems,
  };
}
