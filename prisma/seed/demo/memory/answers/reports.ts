// Answers about the register of reports.
import type { Answer } from '../answer.ts';
import { all, by, one, type Row, type Tables } from '../tables.ts';
import { dayOf, isoDay, sortBy } from '../when.ts';
import { zoneOfJob } from './fees.ts';
import { crewOf } from './schedule.ts';

const sealedOf = (t: Tables, reportId: string): Row[] => by(t, 'sealedPaper', 'reportId', reportId);

function reportOf(t: Tables, r: Row) {
  const deliveries = sortBy(by(t, 'reportDelivery', 'reportId', r.id), (d) => d.deliveredAt.getTime()).map((d) => ({
    id: d.id,
    name: one(t, 'party', d.partyId)!.name,
    partyId: d.partyId,
    deliveredAt: d.deliveredAt.toISOString(),
    method: d.method,
  }));
  return {
    ...r,
    fileName: null,
    fileBytes: null,
    inspectedOn: isoDay(r.inspectedOn),
    completedOn: isoDay(r.completedOn),
    reportOn: isoDay(r.reportOn),
    revisedOn: isoDay(r.revisedOn),
    inspectedBy: (r.inspectedBy as string[]).map((id) => one(t, 'person', id)!.name as string).sort(),
    preparedByName: one(t, 'person', r.preparedBy)!.name,
    people: peopleOf(t, r),
    sealed: sealedOf(t, r.id).map(({ sha256, recordedAt }) => ({ sha256, at: recordedAt.toISOString() }))[0] ?? null,
    deliveries,
  };
}

function peopleOf(t: Tables, r: Row) {
  const day = isoDay(r.inspectedOn)!;
  const who = [...(r.inspectedBy as string[]).map((id) => ({ id, did: 'inspected' })), { id: r.preparedBy as string, did: 'prepared' }];
  return sortBy(
    who.map(({ id, did }) => ({ did, name: one(t, 'person', id)!.name, license: licenseRow(t, id, day) })),
    ({ did, name }) => `${did} ${name}`,
  ).map(({ license, ...person }) => ({ ...person, license: license?.number ?? null, until: license ? isoDay(license.untilDay) : null }));
}

const licenseRow = (t: Tables, personId: string, day: string): Row | undefined =>
  sortBy(
    by(t, 'license', 'personId', personId).filter((l) => isoDay(l.fromDay)! <= day && day <= isoDay(l.untilDay)!),
    ({ kind }) => (kind === 'home_inspector' ? 0 : 1),
    ({ id }) => id,
  )[0];

function partiesOf(t: Tables, jobId: string) {
  const roles = by(t, 'jobParty', 'jobId', jobId);
  const people = [...new Set(roles.map(({ partyId }) => partyId))].map((id) => one(t, 'party', id)!);
  return sortBy(people, ({ name }) => name).map(({ id, name, email }) => {
    const mine = roles.filter(({ partyId }) => partyId === id);
    const consents = mine
      .filter((r) => r.mayReceiveReport && r.consentAt !== null)
      .map((r) => r.consentAt.toISOString() as string)
      .sort();
    return { partyId: id, name, email, roles: mine.map(({ role }) => role).sort(), consentAt: consents.at(-1) ?? null };
  });
}

function visitsOf(t: Tables, jobId: string, zone: string) {
  return sortBy(
    by(t, 'visit', 'jobId', jobId).filter(({ live }) => live),
    (v) => v.startsAt.getTime(),
  ).map((v) => {
    const record = one(t, 'siteRecord', v.id, 'visitId');
    const pair = crewOf(t, v.id).map(({ personId }) => ({ personId, name: one(t, 'person', personId)!.name }));
    return {
      id: v.id,
      kind: v.kind,
      day: dayOf(v.startsAt, zone),
      endsAt: v.endsAt.toISOString(),
      state: v.state,
      recordId: record?.id ?? null,
      recordState: record?.state ?? null,
      pair,
    };
  });
}

function reportJob(t: Tables, jobId: string) {
  const job = one(t, 'job', jobId);
  if (!job) return [];
  const [place, office, firm] = [one(t, 'property', job.propertyId)!, one(t, 'office', job.officeId)!, all(t, 'firm')[0]!];
  return [
    {
      jobId: job.id,
      number: job.number,
      state: job.state,
      terms: job.terms,
      address: `${place.address}, ${place.town}`,
      zip: place.zip,
      jurisdiction: place.state || office.jurisdiction,
      zone: office.zone,
      hours: office.hours,
      reportDueDays: firm.reportDueDays,
      firm: firm.name,
      needs: Object.fromEntries(by(t, 'jobNeed', 'jobId', job.id).map(({ kind, state }) => [kind, state])),
      parties: partiesOf(t, job.id),
      visits: visitsOf(t, job.id, zoneOfJob(t, job)),
    },
  ];
}

const REPORT = 'r.prepared_by::text AS "preparedBy", q.name AS "preparedByName"';

/** Licenses that hold on the day, of those who go to the job's visits. */
function licensesOf(t: Tables, [jobId, day]: readonly string[]) {
  const going = new Set(
    by(t, 'visit', 'jobId', jobId)
      .filter(({ live }) => live)
      .flatMap((v) => crewOf(t, v.id).map(({ personId }) => personId as string)),
  );
  const found = [...going].flatMap((id) =>
    by(t, 'license', 'personId', id)
      .filter((l) => isoDay(l.fromDay)! <= day! && day! <= isoDay(l.untilDay)!)
      .map((l) => ({ name: one(t, 'person', id)!.name as string, number: l.number as string })),
  );
  return sortBy(found, ({ name, number }) => `${name} ${number}`);
}

export const REPORT_ANSWERS: readonly Answer[] = [
  { marks: ['FROM sealed_paper WHERE report_id = $1::uuid'], reply: (t, [id]) => sealedOf(t, id!) },
  { marks: ['p.ended_on IS NULL AND p.may_lead', 'JOIN license l'], reply: licensesOf },
  { marks: [REPORT, 'WHERE r.id = $1::uuid'], reply: (t, [id]) => by(t, 'report', 'id', id).map((r) => reportOf(t, r)) },
  {
    marks: [REPORT, 'WHERE r.job_id = $1::uuid'],
    reply: (t, [jobId]) => sortBy(by(t, 'report', 'jobId', jobId), (r) => -r.version).map((r) => reportOf(t, r)),
  },
  {
    marks: ['FROM hand_over_override o JOIN person p'],
    reply: (t, [jobId]) => by(t, 'handOverOverride', 'jobId', jobId).map((o) => ({ ...o, by: one(t, 'person', o.actorId)!.name })),
  },
  {
    marks: ['f.report_due_days AS "reportDueDays", f.name AS firm', 'jsonb_object_agg(n.kind, n.state)'],
    reply: (t, [jobIds]) => (jobIds as string[]).flatMap((id) => reportJob(t, id)),
  },
];
