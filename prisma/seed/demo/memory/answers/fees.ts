// Answers about invoices, payments and the ledger.
import { touched, type Answer } from '../answer.ts';
import { by, one, type Row, type Tables } from '../tables.ts';
import { dayOf, isoDay, sortBy, sum } from '../when.ts';

export const zoneOfJob = (t: Tables, job: Row): string => one(t, 'office', job.officeId)!.zone;
const TAKES_OFF = ['receivable', 'deposits-held'];

/** What payments of the invoice and their reversals took off what is owed or added to what is held, in cents. */
const paidOn = (t: Tables, invoiceId: string): number =>
  sum(by(t, 'payment', 'invoiceId', invoiceId), ({ entryId }) => {
    const entries = [entryId, ...by(t, 'ledgerEntry', 'reversesId', entryId).map(({ id }) => id)];
    return -sum(
      entries.flatMap((id) => by(t, 'ledgerLine', 'entryId', id)).filter(({ account }) => TAKES_OFF.includes(account)),
      ({ cents }) => cents,
    );
  });

const invoiceOf = (t: Tables) => (i: Row) => {
  const job = one(t, 'job', i.jobId)!;
  const place = one(t, 'property', job.propertyId)!;
  return {
    ...i,
    jobNumber: job.number,
    payerName: one(t, 'party', i.payerId)!.name,
    paidCents: paidOn(t, i.id),
    dueOn: isoDay(i.dueOn),
    terms: job.terms,
    address: `${place.address}, ${place.town}`,
  };
};

const inRoles = (t: Tables, jobId: string, roles: readonly string[]) =>
  sortBy(
    by(t, 'jobParty', 'jobId', jobId).filter(({ role }) => roles.includes(role)),
    ({ id }) => id,
  ).map((jp) => ({ partyId: jp.partyId, name: one(t, 'party', jp.partyId)!.name, role: jp.role }));

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
      visitOn: firstLive ? dayOf(firstLive.startsAt, zone) : null,
      visited: visits.some(({ state }) => state === 'on_site' || state === 'done'),
      parties: inRoles(t, job.id, ['payer', 'client']),
      lines: lines.map(({ label, cents }) => ({ label, cents })),
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
    reply: (t, [jobId]) => [
      {
        n: -sum(
          by(t, 'ledgerLine', 'jobId', jobId).filter(({ account }) => account === 'deposits-held'),
          ({ cents }) => cents,
        ),
      },
    ],
  },
];
