// Answers about invoices, payments and the ledger.
import { touched, type Answer } from '../answer.ts';
import { all, by, one, verbsOf, type Row, type Tables } from '../tables.ts';
import { dayOf, isoDay, sortBy, sum } from '../when.ts';

/** State of a job's property, else of its office. */
export const stateOf = (t: Tables, job: Row): string =>
  one(t, 'property', job.propertyId)!.state || one(t, 'office', job.officeId)!.jurisdiction;

export const zoneOfJob = (t: Tables, job: Row): string => one(t, 'office', job.officeId)!.zone;
const TAKES_OFF = ['receivable', 'deposits-held'];

/** What entries and their reversals left open, in cents. */
const openBy = (t: Tables, entryIds: readonly string[]): number =>
  sum(
    entryIds
      .flatMap((id) => [id, ...by(t, 'ledgerEntry', 'reversesId', id).map((reversal) => reversal.id)])
      .flatMap((id) => by(t, 'ledgerLine', 'entryId', id))
      .filter(({ account }) => TAKES_OFF.includes(account)),
    ({ cents }) => cents,
  );

/** What the ledger says of an invoice, by kind of what belongs to it. */
function moneyOf(t: Tables, i: Row) {
  const acts = by(t, 'invoiceAct', 'invoiceId', i.id);
  const of = (...kinds: string[]) =>
    openBy(
      t,
      acts.filter(({ kind }) => kinds.includes(kind)).map(({ entryId }) => entryId),
    );
  const paid = openBy(
    t,
    by(t, 'payment', 'invoiceId', i.id).map(({ entryId }) => entryId),
  );
  const [refunds, credited, written, added] = [of('refund'), of('credit_note'), of('write_off'), of('returned_fee')];
  return {
    paidCents: -(paid + refunds),
    creditedCents: -credited,
    creditedTaxCents: sum(
      acts.filter(({ kind }) => kind === 'credit_note'),
      ({ taxCents }) => taxCents,
    ),
    writtenOffCents: -written,
    addedCents: added,
    balanceCents: openBy(t, i.number === null ? [] : [i.id]) + paid + refunds + credited + written + added,
  };
}

const invoiceOf = (t: Tables) => (i: Row) => {
  const job = one(t, 'job', i.jobId)!;
  const place = one(t, 'property', job.propertyId)!;
  return {
    ...i,
    jobNumber: job.number,
    payerName: one(t, 'party', i.payerId)!.name,
    payerEmail: one(t, 'party', i.payerId)!.email,
    ...moneyOf(t, i),
    dueOn: isoDay(i.dueOn),
    terms: job.terms,
    address: `${place.address}, ${place.town}`,
  };
};

const inRoles = (t: Tables, jobId: string, roles: readonly string[]) =>
  sortBy(
    by(t, 'jobParty', 'jobId', jobId).filter(({ role }) => roles.includes(role)),
    ({ id }) => id,
  ).map((jp) => ({ partyId: jp.partyId, name: one(t, 'party', jp.partyId)!.name, role: jp.role, weight: weightOf(t, jp) }));

const weightOf = (t: Tables, { jobId, partyId }: Row): number | null =>
  by(t, 'payerShare', 'jobId', jobId).find((share) => share.partyId === partyId)?.weight ?? null;

const serviceOf = (t: Tables, { scheduleId }: Row, ruleKey: string): string | null =>
  one(t, 'feeSchedule', scheduleId)?.body.rules.find(({ key }: Row) => key === ruleKey)?.service ?? null;

function termsOf(t: Tables, jobId: string) {
  const [own] = by(t, 'jobTerms', 'jobId', jobId);
  return {
    depositCents: own?.depositCents ?? null,
    depositPercent: own?.depositPercent ?? null,
    dueOn: own?.dueOn ? isoDay(own.dueOn) : null,
  };
}

const actRow = (t: Tables) => (a: Row) => {
  const [back] = by(t, 'ledgerEntry', 'reversesId', a.entryId);
  return {
    ...a,
    happenedOn: isoDay(one(t, 'ledgerEntry', a.entryId)!.happenedOn),
    recordedBy: null,
    takenBackOn: back ? isoDay(back.happenedOn) : null,
  };
};

const paymentRow = (t: Tables) => (p: Row) => {
  const [back] = by(t, 'ledgerEntry', 'reversesId', p.entryId);
  return { ...p, receivedOn: isoDay(p.receivedOn), reversedOn: back ? isoDay(back.happenedOn) : null, reversalMemo: back?.memo ?? null };
};

const newestBooks = (t: Tables): Row[] =>
  sortBy(all(t, 'bookClosing'), ({ recordedAt }) => -recordedAt.getTime()).map((c) => ({ ...c, through: c.through && isoDay(c.through) }));

function jobForInvoice(t: Tables, [jobId]: readonly string[]) {
  const job = one(t, 'job', jobId);
  if (!job) return [];
  const zone = zoneOfJob(t, job);
  const visits = by(t, 'visit', 'jobId', jobId);
  const [firstLive] = sortBy(
    visits.filter(({ live }) => live),
    (v) => v.startsAt.getTime(),
  );
  const lines = sortBy(
    by(t, 'jobFeeLine', 'jobId', jobId).filter(({ withdrawnAt }) => withdrawnAt === null),
    ({ position }) => position,
    ({ id }) => id,
  );
  return [
    {
      number: job.number,
      terms: job.terms,
      zone,
      ...termsOf(t, job.id),
      visitOn: firstLive ? dayOf(firstLive.startsAt, zone) : null,
      visited: visits.some(({ state }) => state === 'on_site' || state === 'done'),
      parties: inRoles(t, job.id, ['payer', 'client']),
      lines: lines.map(({ label, cents, ruleKey }) => ({ label, cents, service: serviceOf(t, job, ruleKey) })),
    },
  ];
}

/** A line without the columns that hold nothing, as JSON has it. */
const lineOf = ({ account, cents, partyId, jobId, callbackId }: Row) => ({ account, cents, partyId, jobId, callbackId });

const INVOICE = 'i.payer_id::text AS "payerId"';

export const FEE_ANSWERS: readonly Answer[] = [
  { marks: [INVOICE, 'WHERE i.id = $1::uuid'], reply: (t, [id]) => by(t, 'invoice', 'id', id).map(invoiceOf(t)) },
  {
    marks: [INVOICE, 'WHERE i.job_id = $1::uuid AND i.number IS NOT NULL'],
    reply: (t, [jobId]) =>
      sortBy(
        by(t, 'invoice', 'jobId', jobId).filter(({ number }) => number !== null),
        ({ number }) => number,
      ).map(invoiceOf(t)),
  },
  { marks: ['SELECT 1 FROM invoice WHERE id'], reply: () => touched() },
  { marks: ['SELECT 1 FROM invoice WHERE job_id'], reply: () => touched() },
  { marks: ['AS "visitOn"', 'FROM job j JOIN office o'], reply: jobForInvoice },
  {
    marks: ['FROM ledger_line WHERE entry_id = $1::uuid ORDER BY position'],
    reply: (t, [entryId]) => sortBy(by(t, 'ledgerLine', 'entryId', entryId), ({ position }) => position).map(lineOf),
  },
  {
    marks: [`account = 'deposits-held' AND job_id = $1::uuid`],
    reply: (t, [jobId, partyId]) => [
      {
        n: -sum(
          by(t, 'ledgerLine', 'jobId', jobId).filter((line) => line.account === 'deposits-held' && line.partyId === partyId),
          ({ cents }) => cents,
        ),
      },
    ],
  },
  { marks: ['FROM invoice_act c JOIN', 'WHERE c.invoice_id'], reply: (t, [id]) => by(t, 'invoiceAct', 'invoiceId', id).map(actRow(t)) },
  { marks: ['FROM invoice_act c JOIN', 'WHERE c.id'], reply: (t, [id]) => by(t, 'invoiceAct', 'id', id).map(actRow(t)) },
  { marks: ['FROM book_closing c JOIN', 'LIMIT 1'], reply: (t) => newestBooks(t).slice(0, 1) },
  { marks: ['FROM money_rules WHERE id = 1'], reply: (t) => all(t, 'moneyRules') },
  {
    marks: ['INSERT INTO money_rules'],
    reply: (t) => (void verbsOf(t, 'moneyRules').upsert({ where: { id: 1 }, create: { id: 1 }, update: {} }), touched()),
  },
  {
    marks: ['FROM payment p LEFT JOIN ledger_entry r', 'WHERE p.id = $1::uuid'],
    reply: (t, [id]) => by(t, 'payment', 'id', id).map(paymentRow(t)),
  },
  {
    marks: ['FROM job_discount'],
    reply: (t, [jobId]) => by(t, 'jobDiscount', 'jobId', jobId).slice(-1),
  },
  { marks: ['FROM ledger_account ORDER BY array_position'], reply: (t) => all(t, 'ledgerAccount') },
];
