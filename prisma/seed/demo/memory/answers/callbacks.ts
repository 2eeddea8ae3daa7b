// Answers about callbacks, their money, and corrective actions.
import type { Answer } from '../answer.ts';
import { all, by, one, type Row, type Tables } from '../tables.ts';
import { dayOf, isoDay, sortBy, sum } from '../when.ts';
import { stateOf, zoneOfJob } from './fees.ts';
import { crewOf } from './schedule.ts';

const wordsOf = (t: Tables, id: string | null) => (id === null ? null : one(t, 'keptText', id)!.body);
const callbackOf = (c: Row) => ({
  ...c,
  discoveredOn: isoDay(c.discoveredOn),
  servedOn: isoDay(c.servedOn),
  deadlineOn: isoDay(c.deadlineOn),
});
const began = (t: Tables, jobId: string) => by(t, 'visit', 'jobId', jobId).filter(({ state }) => state === 'on_site' || state === 'done');

function partiesOf(t: Tables, jobId: string) {
  const agreements = by(t, 'agreement', 'jobId', jobId);
  const signed = new Set(
    agreements
      .flatMap((g) => by(t, 'signer', 'agreementId', g.id))
      .filter((s) => one(t, 'signature', s.id, 'signerId'))
      .map(({ partyId }) => partyId),
  );
  const rows = by(t, 'jobParty', 'jobId', jobId).map((x) => ({ ...one(t, 'party', x.partyId)!, role: x.role }) as Row);
  return sortBy(
    rows,
    ({ role }) => role,
    ({ name }) => name,
  ).map(({ id, name, email, role }) => ({ id, name, email, role, signed: signed.has(id) }));
}

function jobOf(t: Tables, [id]: readonly string[]) {
  const job = one(t, 'job', id);
  if (!job) return [];
  const [place, zone] = [one(t, 'property', job.propertyId)!, zoneOfJob(t, job)];
  const visits = sortBy(began(t, job.id), (v) => v.startsAt.getTime());
  const pair = visits
    .flatMap((v) => crewOf(t, v.id))
    .map((a) => ({ id: a.personId, name: one(t, 'person', a.personId)!.name, place: a.place }));
  return [
    {
      id: job.id,
      number: job.number,
      kind: job.kind,
      officeId: job.officeId,
      zone,
      jurisdiction: stateOf(t, job),
      propertyId: place.id,
      address: place.address,
      town: place.town,
      zip: place.zip,
      facts: job.facts,
      inspectedOn: visits[0] ? dayOf(visits[0].startsAt, zone) : null,
      pair: pair.filter((a, at) => pair.findIndex((b) => b.id === a.id && b.place === a.place) === at),
      parties: partiesOf(t, job.id),
    },
  ];
}

const recordsOf = (t: Tables, jobId: string) => by(t, 'visit', 'jobId', jobId).flatMap((v) => by(t, 'siteRecord', 'visitId', v.id));

/** The newest package's row of each step. */
function workedSteps(t: Tables, [jobId]: readonly string[]) {
  const packages = recordsOf(t, jobId!).flatMap((r) => by(t, 'sitePackage', 'recordId', r.id));
  const rows = packages.flatMap((k) => by(t, 'packageStep', 'packageId', k.id).map((s) => ({ ...s, issuedAt: k.issuedAt }) as Row));
  const sorted = sortBy(
    rows,
    (s) => s.stepKey,
    (s) => -s.issuedAt.getTime(),
    (s) => s.position,
  );
  return sorted.filter((s, at) => sorted[at - 1]?.stepKey !== s.stepKey).map(({ stepKey, revisionId }) => ({ stepKey, revisionId }));
}

function money(t: Tables, [callbackId]: readonly string[]) {
  const lines = by(t, 'ledgerLine', 'callbackId', callbackId);
  const of = (...accounts: string[]) =>
    0 -
    sum(
      lines.filter(({ account }) => accounts.includes(account)),
      ({ cents }) => cents,
    );
  return [{ paidCents: of('bank', 'recoveries'), reservedCents: of('callback-reserve'), recoveredCents: of('recoveries') }];
}

/** What the agreement limits, the fee, and the days of the first report. */
function terms(t: Tables, [jobId, zone]: readonly string[]) {
  const newest = by(t, 'agreement', 'jobId', jobId).toSorted((a, b) => b.issuedAt.getTime() - a.issuedAt.getTime())[0];
  const text = newest ? one(t, 'agreementText', newest.textId)! : null;
  const lines = by(t, 'jobFeeLine', 'jobId', jobId).filter(({ withdrawnAt }) => withdrawnAt === null);
  const report = by(t, 'report', 'jobId', jobId).find(({ version }) => version === 1);
  const delivered = report ? by(t, 'reportDelivery', 'reportId', report.id).map(({ deliveredAt }) => deliveredAt.getTime()) : [];
  return [
    {
      ...{ limits: text?.limits ?? null, clauses: text?.clauses ?? null, feeCents: sum(lines, ({ cents }) => cents) },
      ...{ inspectedOn: report ? isoDay(report.inspectedOn) : null, completedOn: report ? isoDay(report.completedOn) : null },
      deliveredOn: delivered.length > 0 ? dayOf(new Date(Math.min(...delivered)), zone!) : null,
    },
  ];
}

const backOnInvoice = (t: Tables, [invoiceId]: readonly string[]) => {
  const lines = by(t, 'remedyPayment', 'invoiceId', invoiceId).flatMap(({ entryId }) => by(t, 'ledgerLine', 'entryId', entryId));
  return [
    {
      cents: -sum(
        lines.filter(({ account }) => account === 'bank'),
        ({ cents }) => cents,
      ),
    },
  ];
};

const NOT_COUNTED = ['question', 'near_miss'];
function earlier(t: Tables, [propertyId]: readonly string[]) {
  const rows = by(t, 'job', 'propertyId', propertyId).flatMap((j) =>
    by(t, 'callback', 'jobId', j.id).map((c) => ({ ...c, jobNumber: j.number }) as Row),
  );
  return sortBy(
    rows.filter(({ kind, duplicateOfId }) => !NOT_COUNTED.includes(kind) && duplicateOfId === null),
    ({ number }) => number,
  );
}

const remedyOf = (t: Tables) => (r: Row) => ({ ...r, words: wordsOf(t, r.textId), proposer: one(t, 'person', r.proposedBy)!.name });
const changedAt = (t: Tables, a: Row): Date | null =>
  (a.revisionId ? by(t, 'inForcePeriod', 'revisionId', a.revisionId)[0]?.fromAt : null) ?? a.changedAt;
const withRevision = (t: Tables) => (a: Row) => ({
  ...a,
  dueOn: isoDay(a.dueOn),
  revisionNumber: a.revisionId ? one(t, 'procedureRevision', a.revisionId)!.number : null,
  changedAt: changedAt(t, a),
  callbacks: callbacksOf(t, a).map(({ id, number, ownerOnly }) => ({ id, number, ownerOnly })),
});
const callbacksOf = (t: Tables, a: Row): Row[] =>
  by(t, 'correctiveActionCallback', 'actionId', a.id).map(({ callbackId }) => one(t, 'callback', callbackId)!);

const casesOf = (t: Tables, [ids]: readonly any[]) =>
  (ids as string[]).map((id) => {
    const { kind, ownerOnly, jobId } = one(t, 'callback', id)!;
    const names = by(t, 'jobParty', 'jobId', jobId).map(({ partyId }) => one(t, 'party', partyId)!.name as string);
    return { kind, ownerOnly, address: one(t, 'property', one(t, 'job', jobId)!.propertyId)!.address, names };
  });

const rootOf = (t: Tables, key: string): string => {
  const from = one(t, 'stepKey', key, 'key')?.derivedFrom ?? null;
  return from === null ? key : rootOf(t, from);
};
/** Actions because of other callbacks whose newest conclusion names a step of the same line. */
function actionsOnStep(t: Tables, [stepKey, callbackId]: readonly any[]) {
  const root = rootOf(t, stepKey);
  const newest = (id: string) => sortBy(by(t, 'conclusion', 'callbackId', id), (c) => -c.happenedAt.getTime())[0]?.stepKey ?? null;
  const starts = began(t, one(t, 'callback', callbackId)!.jobId).map((v) => v.startsAt.getTime());
  return sortBy(
    all(t, 'correctiveAction').filter((a) => {
      const ids = callbacksOf(t, a).map(({ id }) => id as string);
      return a.state !== 'dropped' && !ids.includes(callbackId) && ids.some((id) => newest(id) !== null && rootOf(t, newest(id)) === root);
    }),
    ({ number }) => number,
  ).map((a) => {
    const owner = one(t, 'person', a.ownerId)!;
    const inspectedAt = starts.length > 0 ? new Date(Math.min(...starts)) : null;
    return { ...a, changedAt: changedAt(t, a), toName: owner.name, toEmail: owner.email, owner: owner.name, inspectedAt };
  });
}
const readyActions = (t: Tables, [at]: readonly string[]) => {
  const inForce = (revisionId: string | null) =>
    revisionId !== null && by(t, 'inForcePeriod', 'revisionId', revisionId).some((f) => f.fromAt <= new Date(at!));
  return sortBy(
    all(t, 'correctiveAction').filter((a) => a.kind === 'revision' && a.state === 'open' && a.reopenedAt === null && inForce(a.revisionId)),
    ({ number }) => number,
  ).map(({ id, revisionId, version }) => ({ id, revisionId, version }));
};
const READY = 'FROM corrective_action a JOIN in_force_period f ON f.revision_id = a.revision_id';
const REMEDY = 'r.proposed_by::text AS "proposedBy"';
const ACTION = 'a.owner_id::text AS "ownerId"';

export const CALLBACK_ANSWERS: readonly Answer[] = [
  {
    marks: ['c.remedy_sought AS "remedySought"', 'FROM callback c WHERE c.id = $1::uuid'],
    reply: (t, [id]) => by(t, 'callback', 'id', id).map(callbackOf),
  },
  { marks: [`'signed',`, 'AS "inspectedOn"', 'WHERE j.id = $1::uuid'], reply: jobOf },
  { marks: ['FROM callback c JOIN job j', `c.kind NOT IN ('question', 'near_miss')`, 'j.property_id = $1::uuid'], reply: earlier },
  { marks: ['FROM safety_advice a JOIN person p'], reply: () => [] },
  { marks: ['SELECT DISTINCT ON (s.step_key)'], reply: workedSteps },
  {
    marks: ['SELECT e.id::text AS id, e.step_key AS "stepKey" FROM step_entry e JOIN site_record r'],
    reply: (t, [jobId]) =>
      recordsOf(t, jobId)
        .flatMap((r) => by(t, 'stepEntry', 'recordId', r.id))
        .map(({ id, stepKey }) => ({ id, stepKey })),
  },
  {
    marks: ['FROM conclusion c JOIN person w', 'WHERE c.callback_id = $1::uuid'],
    reply: (t, [id]) =>
      sortBy(by(t, 'conclusion', 'callbackId', id), (c) => -c.happenedAt.getTime()).map((c) => ({ ...c, words: wordsOf(t, c.textId) })),
  },
  {
    marks: [REMEDY, 'WHERE r.callback_id = $1::uuid'],
    reply: (t, [id]) =>
      sortBy(
        by(t, 'remedy', 'callbackId', id),
        (r) => r.recordedAt.getTime(),
        (r) => r.id,
      ).map(remedyOf(t)),
  },
  {
    marks: ['FROM account_request q JOIN person p', 'WHERE q.callback_id = $1::uuid ORDER BY q.happened_at'],
    reply: (t, [id]) =>
      by(t, 'accountRequest', 'callbackId', id).map((q) => ({
        ...{ id: q.id, personId: q.personId, name: one(t, 'person', q.personId)!.name, askedAt: q.happenedAt },
        given: by(t, 'account', 'requestId', q.id).length,
      })),
  },
  { marks: [REMEDY, 'WHERE r.id = $1::uuid'], reply: (t, [id]) => by(t, 'remedy', 'id', id).map(remedyOf(t)) },
  {
    marks: ['FROM clearance c JOIN person p', 'WHERE c.callback_id = $1::uuid'],
    reply: (t, [id]) => sortBy(by(t, 'clearance', 'callbackId', id), (c) => c.happenedAt.getTime()),
  },
  { marks: ['AS "reservedCents"', 'FROM ledger_line l WHERE l.callback_id = $1::uuid'], reply: money },
  {
    marks: ['FROM estimate e JOIN person p', 'WHERE e.callback_id = $1::uuid'],
    reply: (t, [id]) =>
      sortBy(by(t, 'estimate', 'callbackId', id), (e) => e.cents).map((e) => ({ ...e, estimatedOn: isoDay(e.estimatedOn), file: null })),
  },
  { marks: ['FROM remedy_conflict c JOIN remedy r'], reply: () => [] },
  { marks: ['FROM court_case c JOIN person p', 'WHERE c.callback_id = $1::uuid'], reply: () => [] },
  { marks: ['SELECT t.limits, t.clauses', 'LEFT JOIN report r ON r.job_id = j.id AND r.version = 1'], reply: terms },
  { marks: ['FROM remedy_payment p JOIN ledger_line l', 'WHERE p.invoice_id = $1::uuid'], reply: backOnInvoice },
  {
    marks: ['count(DISTINCT callback_id)::int AS n FROM conclusion'],
    reply: (t, [ids]) => [{ n: (ids as string[]).filter((id) => by(t, 'conclusion', 'callbackId', id).length > 0).length }],
  },
  { marks: [ACTION, 'WHERE a.id = $1::uuid'], reply: (t, [id]) => by(t, 'correctiveAction', 'id', id).map(withRevision(t)) },
  { marks: ['FROM callback c JOIN job j', 'AS names', 'c.id = ANY ($1::uuid[])'], reply: casesOf },
  { marks: ['AS "toEmail"', 'FOR UPDATE OF a'], reply: actionsOnStep },
  { marks: [READY, 'FOR UPDATE OF a'], reply: readyActions },
  { marks: ['SELECT count(*)::int AS n', READY], reply: (t, params) => [{ n: readyActions(t, params).length }] },
  {
    marks: ['AS "inForce" FROM procedure_revision r'],
    reply: (t, [id, at]) =>
      by(t, 'procedureRevision', 'id', id).map(({ number, state }) => ({
        number,
        state,
        inForce: by(t, 'inForcePeriod', 'revisionId', id).some((f) => f.fromAt <= new Date(at)),
      })),
  },
];
