// An agreement text as it reads for one job: the clauses that apply, and the value of every field.
import { DateTime } from 'luxon';
import { agreementFacts } from '@backsight/domain/agreements/facts';
import { lawFacts } from '@backsight/domain/agreements/lawWords';
import type { AgreementFacts } from '@backsight/domain/agreements/render';
import { clauseApplies, clausesFor, templateOf, type Clause, type ClauseContext, type TextLimits } from '@backsight/domain/agreements/text';
import { rowsOn, type RulePack } from '@backsight/domain/shared/rulePack';
import { claimReadings } from '@backsight/domain/liability/claimWindow';
import { NO_RULES } from '@backsight/domain/jobs/deskRules';
import type { Warning } from '@backsight/domain/shared/outcome';
import type { Truth } from '@backsight/domain/shared/applicability';
import { findJobForText, type JobForAgreement, type JobForText } from '@backsight/store/agreements/job';
import type { Reader } from '@backsight/store/database';
import { deskRulesIn } from '@backsight/store/jobs/catalog';
import { findFeeLines } from '@backsight/store/jobs/jobs';
import { listClosedDays } from '@backsight/store/firm/settings';
import { findRulePack } from '@backsight/store/firm/rulePacks';
import { dayOfInspection, reportDueBy, reportDueFor } from '../../sitework/steps/reportDue.ts';
import { feeOf, isEndingKey } from '../../jobs/steps/feeLines.ts';

export type Written = { template: string; facts: AgreementFacts; warnings: Warning[]; clauses: { clause: Clause; applies: Truth }[] };

/** What a visit that ended early cost is no fee that is agreed. `at` is when it is written; the rules of the state are those of the day of the visit, or of that day. */
export async function writtenFor(
  reader: Reader,
  job: JobForAgreement,
  text: { clauses: readonly Clause[]; limits: TextLimits },
  at: Date,
): Promise<Written> {
  const [found, lines] = await Promise.all([findJobForText(reader, job.id), findFeeLines(reader, job.id)]);
  const more = found!;
  const day = DateTime.fromISO(job.visit?.startsAt ?? at.toISOString(), { zone: job.zone }).toISODate()!;
  const context = contextOf(job, more, day);
  const { jurisdiction } = more;
  const [pack, closed] = await Promise.all([findRulePack(reader, jurisdiction, day), listClosedDays(reader, day)]);
  const rows = rowsOn(pack?.rows ?? [], day);
  const clients = job.parties.filter(({ role }) => role === 'client').map(({ name }) => name);
  const feeCents = job.feeCents - feeOf(lines.filter(({ rule }) => isEndingKey(rule)));
  const law = lawFacts({
    state: pack?.name || jurisdiction,
    rows,
    readings: claimReadings(rows, day),
    desk: deskRulesIn(more.rulesId, more.desk) ?? NO_RULES,
    limits: text.limits,
    feeCents,
    items: more.items,
    firstJob: more.firstJob,
  });
  const reportDueAt = await dueOf(reader, job, more, { pack, closedDays: closed.map((one) => one.day), day });
  return {
    template: templateOf(clausesFor(text.clauses, context)),
    facts: {
      ...agreementFacts({ ...job, feeCents, clients, feeKnown: job.feeLines > 0, reportDueAt }),
      ...law,
    },
    clauses: text.clauses.map((clause) => ({ clause, applies: clauseApplies(clause, context) })),
    warnings: more.firmStates.includes(jurisdiction) ? [] : [notTakenUp(pack?.name || jurisdiction)],
  };
}

type Known = { pack: RulePack | null; closedDays: string[]; day: string };

/** The pack that was read for the day of the visit is that of the due day too, unless the visit ends on another. */
async function dueOf(reader: Reader, job: JobForAgreement, { jurisdiction, hours }: JobForText, known: Known): Promise<string | null> {
  if (!job.visit) return null;
  const ended = new Date(job.visit.endsAt);
  const ask = { ...job, jurisdiction, hours, inspectedAt: ended, completedAt: ended };
  return (dayOfInspection(ask) === known.day ? reportDueBy(ask, known) : await reportDueFor(reader, ask)).at;
}

/** A client who is also the seller has the house looked at before selling it. */
function contextOf({ parties }: JobForAgreement, { facts, serviceKeys }: JobForText, day: string): ClauseContext {
  const sellers = parties.filter(({ role }) => role === 'seller');
  const clientIsOwner = parties.some(
    ({ role, partyId, email }) => role === 'client' && sellers.some((s) => s.partyId === partyId || (email !== null && s.email === email)),
  );
  return { facts, services: serviceKeys, day, clientIsOwner };
}

const notTakenUp = (state: string): Warning => ({
  code: 'state-not-taken-up',
  text: `The property lies in ${state}, whose rules the firm has not taken up: see State rules.`,
});
