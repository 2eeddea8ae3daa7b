// Pay: rules of persons from a day on, what each visit froze, and the statement of a period. It never reads callbacks.
import { PAY_PARTS, mayBegin, payFor, ruleOn, type PayPart, type PayRule } from '@backsight/domain/fees/pay';
import { shiftDay } from '@backsight/domain/shared/calendar';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { csvText } from '@backsight/documents/csv';
import type { Database, Reader } from '@backsight/store/database';
import {
  addPayRule,
  freezePay,
  lastFrozenDay,
  listPayRules,
  payBetween,
  visitsToPay,
  type FrozenPay,
  type PayLine,
  type PayRuleRow,
} from '@backsight/store/fees/pay';
import { findPerson } from '@backsight/store/people';
import { FIRM_THING } from '../firm/steps/localDay.ts';
import type { Act, Runner, Work } from '../run.ts';

export async function readPayRules(reader: Reader) {
  const rules = await listPayRules(reader);
  return { items: rules.map((rule) => ({ ...rule, recordedAt: rule.recordedAt.toISOString() })) };
}

export type PayRuleInput = { id: string; personId: string; fromDay: string; rule: PayRule };

/** Refusals: pay-frozen, for a day whose pay was worked out already. */
export const setPayRule: Act<PayRuleInput, { id: string }> = { operation: 'fees.set-pay-rule', run: setRule };

async function setRule(work: Work, { id, personId, fromDay, rule }: PayRuleInput): Promise<Outcome<{ id: string }>> {
  if (work.actor.kind !== 'person') return refuse('not-allowed');
  if (!(await findPerson(work.tx, personId))) return refuse('not-found', { thing: 'person' });
  const may = mayBegin(fromDay, await lastFrozenDay(work.tx, personId));
  if (!may.ok) return may;
  await addPayRule(work.tx, { id, personId, fromDay, body: rule, recordedAt: work.now, recordedBy: work.actor.id });
  await work.did('person', personId, { payRule: id, fromDay, basis: rule.basis.kind });
  return accept({ id });
}

const AT_ONCE = 500;

/** Freezes who did each visit that is over, and what the rule of that day pays for it. */
export const freezeVisits: Act<{ since: string | null }, { frozen: number }> = { operation: 'fees.freeze-pay', run: freeze };

async function freeze(work: Work, { since }: { since: string | null }): Promise<Outcome<{ frozen: number }>> {
  const rules = await listPayRules(work.tx);
  const visits = await visitsToPay(work.tx, AT_ONCE, since);
  const pay = visits.flatMap((visit) => {
    const parts: [PayPart, string | null][] = [
      ...(visit.firstFrozen
        ? []
        : ([
            ['first', visit.first],
            ['second', visit.second],
          ] as [PayPart, string | null][])),
      ['writer', visit.writer],
    ];
    return parts.flatMap(([part, personId]) => (personId === null ? [] : [frozen(visit, part, personId, rules)]));
  });
  const count = await freezePay(work.tx, pay, work.now);
  await work.did('firm', FIRM_THING, { payFrozen: count, visits: visits.length });
  return accept({ frozen: count });
}

type Visit = Awaited<ReturnType<typeof visitsToPay>>[number];

function frozen({ visitId, day, minutes, feeCents }: Visit, part: PayPart, personId: string, rules: readonly PayRuleRow[]): FrozenPay {
  const rule = ruleOn(rules, personId, day);
  const { cents, reason } = rule ? payFor(rule.body, { part, feeCents, minutes }) : { cents: 0, reason: 'no pay rule was in force' };
  return { visitId, personId, part, ruleId: rule?.id ?? null, feeCents, minutes, cents, reason, happenedOn: day };
}

/** Phones and reports may come late; what comes later than that is found when everything is looked at. */
const NEAR_MS = 60 * 86_400_000;
type Clocked = { database: Database; runner: Runner; clock: () => Date };

/**
 * Freezes what is over; nothing is written while nothing is. `near` looks at visits and reports of the last sixty days alone, which
 * costs the same every minute however many visits lie behind.
 */
export async function freezePayOf({ database, runner, clock }: Clocked, { near = false } = {}): Promise<number> {
  const since = near ? new Date(clock().getTime() - NEAR_MS).toISOString() : null;
  if ((await visitsToPay(database.read, 1, since)).length === 0) return 0;
  const done = await runner.run(freezeVisits, { since }, { actor: { kind: 'service' } });
  return done.ok ? done.value.frozen : 0;
}

export type StatementInput = { from: string; until: string; personId: string | null };

/** Refusals: period-too-long. */
export async function readPay(reader: Reader, { from, until, personId }: StatementInput) {
  if (until < from || until > shiftDay(from, 3 * 366)) return refuse('period-too-long', {}, 'until');
  const lines = await payBetween(reader, from, until, personId);
  const totals = new Map<string, { personId: string; person: string; cents: number; visits: number }>();
  for (const { personId: id, person, cents } of lines) {
    const sum = totals.get(id) ?? { personId: id, person, cents: 0, visits: 0 };
    totals.set(id, { ...sum, cents: sum.cents + cents, visits: sum.visits + 1 });
  }
  return accept({ lines, totals: [...totals.values()], totalCents: lines.reduce((sum, { cents }) => sum + cents, 0) });
}

const HEAD = ['Person', 'Day', 'Job', 'Address', 'Visit', 'Part', 'Fee of the job', 'Minutes', 'Rule', 'Pay'];
const dollars = (cents: number): string => (cents / 100).toFixed(2);
const row = (line: PayLine) => [
  line.person,
  line.happenedOn,
  line.jobNumber,
  line.address,
  line.visitKind,
  PAY_PARTS[line.part],
  dollars(line.feeCents),
  line.minutes,
  line.reason,
  dollars(line.cents),
];

/** The statement as CSV (RFC 4180), amounts in dollars. */
export async function exportPay(reader: Reader, input: StatementInput): Promise<Outcome<string>> {
  const pay = await readPay(reader, input);
  return pay.ok ? accept(csvText([HEAD, ...pay.value.lines.map(row)])) : pay;
}
