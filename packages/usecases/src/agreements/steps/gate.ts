// What firm policy still wants before the pair may start, read fresh each time.
import { gateOfFacts, type Gate } from '@backsight/domain/agreements/gate';
import { overridesOf } from '@backsight/store/agreements';
import { findGateFacts, findVisitForGate } from '@backsight/store/agreements/job';
import type { Reader } from '@backsight/store/database';
import { invoicesOfJob } from '@backsight/store/fees';
import { findMoneyRules } from '@backsight/store/fees/rules';
import { findPeopleNames } from '@backsight/store/agreements/names';
import { missingAcknowledgements } from '@backsight/store/procedures';

export type GateNow = Gate & {
  /** True when nothing is missing, or when an override names all that is missing. */
  open: boolean;
  overrides: { id: string; missing: string[]; reason: string; by: string; happenedAt: string }[];
};

/** The gate of a visit; a visit that does not exist throws. */
export async function gateOf(reader: Reader, visitId: string): Promise<GateNow> {
  const visit = await findVisitForGate(reader, visitId);
  if (!visit) throw new Error('no such visit');
  const facts = await findGateFacts(reader, visit.jobId);
  const invoices = (await invoicesOfJob(reader, visit.jobId)).filter(({ state }) => state !== 'withdrawn');
  const invoicedCents = invoices.reduce((sum, { totalCents }) => sum + totalCents, 0);
  const openCents = invoices.reduce((sum, { balanceCents }) => sum + Math.max(0, balanceCents), 0);
  const depositCents = invoices.reduce((sum, one) => sum + one.depositCents, 0);
  const { depositClosesGate: depositCloses } = await findMoneyRules(reader);
  const names = await findPeopleNames(reader, visit.personIds);
  const late = (await missingAcknowledgements(reader, visit.startsAt)).filter(
    (m) => names.has(m.personId) && m.acknowledgeBy <= visit.startsAt,
  );
  const unacknowledged = late.map((m) => ({ name: names.get(m.personId)!, procedure: m.procedureTitle, number: m.number }));
  const gate = gateOfFacts({ ...facts, invoicedCents, paidCents: invoicedCents - openCents, depositCents, depositCloses, unacknowledged });
  const overrides = (await overridesOf(reader, visitId)).map((o) => ({ ...o, happenedAt: o.happenedAt.toISOString() }));
  const covered = (code: string) => overrides.some(({ missing }) => missing.includes(code));
  return { ...gate, open: gate.missing.every(covered), overrides };
}
