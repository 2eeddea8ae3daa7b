// Answers about site records: visits as the pair sees them, packages, items and entries.
import type { Answer } from '../answer.ts';
import { by, one, type Row, type Tables } from '../tables.ts';
import { dayOf, sortBy } from '../when.ts';
import { zoneOfJob } from './fees.ts';
import { crewOf } from './schedule.ts';

function visitOf(t: Tables, v: Row) {
  const job = one(t, 'job', v.jobId)!;
  const place = one(t, 'property', job.propertyId)!;
  const services = by(t, 'jobService', 'jobId', job.id)
    .map(({ serviceKey }) => serviceKey as string)
    .sort();
  const kit = by(t, 'visitKit', 'visitId', v.id).map(({ kind }) => one(t, 'kitKind', kind, 'key')!);
  const record = one(t, 'siteRecord', v.id, 'visitId');
  return {
    id: v.id,
    jobId: job.id,
    kind: v.kind,
    state: v.state,
    crewSize: v.crewSize,
    startsAt: v.startsAt,
    endsAt: v.endsAt,
    day: dayOf(v.startsAt, zoneOfJob(t, job)),
    jobNumber: job.number,
    jobKind: job.kind,
    jobState: job.state,
    address: place.address,
    town: place.town,
    facts: job.facts,
    services,
    serviceNames: Object.fromEntries(services.map((key) => [key, one(t, 'service', key, 'key')!.name])),
    pair: crewOf(t, v.id).map(({ personId, place: seat }) => ({ personId, name: one(t, 'person', personId)!.name, place: seat })),
    kit: sortBy(
      kit,
      ({ carriedByAll }) => Number(carriedByAll),
      ({ name }) => name,
    ).map(({ name }) => name),
    recordId: record?.id ?? null,
    recordState: record?.state ?? null,
  };
}

type IssuedStep = ReturnType<typeof readSteps>[number];
const stepsKnown = new WeakMap<Row, IssuedStep[]>();

/** The steps of a record, put together once for its newest package: what was handed out never changes. */
function issuedSteps(t: Tables, recordId: string): IssuedStep[] {
  const packages = by(t, 'sitePackage', 'recordId', recordId);
  const newest = packages.at(-1);
  if (!newest) return [];
  return stepsKnown.get(newest) ?? stepsKnown.set(newest, readSteps(t, packages)).get(newest)!;
}

function readSteps(t: Tables, packages: readonly Row[]) {
  const rows = packages.flatMap((k) => by(t, 'packageStep', 'packageId', k.id));
  return sortBy(rows, ({ position }) => position).map((s) => {
    const r = one(t, 'procedureRevision', s.revisionId)!;
    const p = one(t, 'procedure', r.procedureId)!;
    const body = by(t, 'revisionStep', 'revisionId', r.id).find(({ stepKey }) => stepKey === s.stepKey)!.body;
    return {
      packageId: s.packageId,
      stepKey: s.stepKey,
      itemId: s.itemId,
      revisionId: r.id,
      revisionNumber: r.number,
      procedureTitle: p.title,
      system: p.system,
      position: s.position,
      partnerCheck: s.partnerCheck,
      body,
    };
  });
}

const entriesOf = (t: Tables, recordId: string) =>
  sortBy(
    by(t, 'stepEntry', 'recordId', recordId),
    (e) => e.recordedAt.getTime(),
    (e) => e.deviceSeq,
    (e) => e.id,
  ).map((e) => {
    const text = e.textId === null ? null : one(t, 'keptText', e.textId)!;
    return { ...e, note: text?.body ?? null, noteDigest: text?.digest ?? null };
  });

const seal = (t: Tables, [id, sealSha256, sealedBy, at]: readonly string[]) =>
  by(t, 'siteRecord', 'id', id).map((r) => Object.assign(r, { state: 'sealed', sealSha256, sealedBy, sealedAt: new Date(at!) }));

const RECORD = 'seal_sha256 AS "sealSha256"';

export const SITEWORK_ANSWERS: readonly Answer[] = [
  { marks: ['FROM sitework_rules WHERE id = 1'], reply: () => [{ doubleLookOneIn: 5, showAgreement: false, version: 1 }] },
  {
    marks: ['j.number AS "jobNumber", j.kind AS "jobKind", j.state AS "jobState"', 'WHERE v.id = $1::uuid'],
    reply: (t, [id]) => by(t, 'visit', 'id', id).map((v) => visitOf(t, v)),
  },
  {
    marks: ['j.number AS "jobNumber", j.kind AS "jobKind", j.state AS "jobState"', 'WHERE v.job_id = $1::uuid AND v.live'],
    reply: (t, [jobId]) =>
      sortBy(
        by(t, 'visit', 'jobId', jobId).filter(({ live }) => live),
        (v) => v.startsAt.getTime(),
      ).map((v) => visitOf(t, v)),
  },
  { marks: ['FROM site_photo WHERE record_id = $1::uuid'], reply: () => [] },
  { marks: [RECORD, 'FROM site_record WHERE id = $1::uuid'], reply: (t, [id]) => by(t, 'siteRecord', 'id', id).map((r) => ({ ...r })) },
  {
    marks: ['UPDATE site_record SET ended_as = $2'],
    reply: (t, [id, endedAs]) => by(t, 'siteRecord', 'id', id).map((r) => (r.endedAs = endedAs)),
  },
  { marks: [`UPDATE site_record SET state = 'sealed'`], reply: seal },
  {
    marks: ['FROM record_item WHERE record_id = $1::uuid'],
    reply: (t, [id]) =>
      sortBy(
        by(t, 'recordItem', 'recordId', id),
        (i) => i.recordedAt.getTime(),
        (i) => i.kind,
        (i) => i.label,
      ).map(({ id: item, kind, label }) => ({ id: item, kind, label })),
  },
  {
    marks: ['FROM site_package WHERE record_id = $1::uuid ORDER BY number'],
    reply: (t, [id]) => sortBy(by(t, 'sitePackage', 'recordId', id), ({ number }) => number),
  },
  { marks: ['s.partner_check AS "partnerCheck", b.body', 'WHERE k.record_id = $1::uuid'], reply: (t, [id]) => issuedSteps(t, id) },
  { marks: ['FROM record_alias WHERE record_id = $1::uuid'], reply: () => [] },
  { marks: ['t.digest AS "noteDigest"', 'WHERE e.record_id = $1::uuid'], reply: (t, [id]) => entriesOf(t, id) },
  {
    marks: ['SELECT id::text AS id, record_id::text AS "recordId", match FROM step_entry WHERE id = ANY'],
    reply: (t, [ids]) => (ids as string[]).flatMap((id) => by(t, 'stepEntry', 'id', id)),
  },
];
