// Answers about properties, jobs, the people on them, and what a quote rests on.
import { touched, type Answer } from '../answer.ts';
import { all, by, one, type Row, type Tables } from '../tables.ts';
import { isoDay, sortBy } from '../when.ts';

const NOT_THERE = ['held', 'lapsed', 'cancelled'];
const knownProperty = (t: Tables) => (p: Row) => ({
  ...p,
  inspected: by(t, 'job', 'propertyId', p.id).filter(({ state }) => !NOT_THERE.includes(state)).length,
});
const jobOf = (j: Row) => ({ ...j, objectionOn: isoDay(j.objectionOn) });
const KNOWN = 'AS inspected FROM property p';

/** Whether somebody is one of a pair of the job, or comes along; of held and lapsed visits nobody was told. */
const goesTo = (t: Tables, jobId: string, personId: string): boolean =>
  by(t, 'visit', 'jobId', jobId)
    .filter(({ state }) => state !== 'held' && state !== 'lapsed')
    .flatMap(({ id }) => [...by(t, 'assignment', 'visitId', id), ...by(t, 'observer', 'visitId', id)])
    .some((row) => row.personId === personId);

/** The row of a dated table that came into force last. */
const inForce = (rows: readonly Row[], at: string): Row | undefined =>
  sortBy(
    rows.filter(({ inForceFrom }) => inForceFrom !== null && inForceFrom <= new Date(at)),
    (r) => -r.inForceFrom.getTime(),
    (r) => -r.number,
  )[0];

const withBody = (row: Row | null | undefined) => (row ? { id: row.id, body: row.body } : null);

function catalog(t: Tables, [at, officeId]: readonly any[]) {
  const firm = all(t, 'firm')[0]!;
  const office = sortBy(all(t, 'office'), ({ id }) => id).find(({ id }) => officeId === null || id === officeId);
  return [
    {
      firm: { holdMinutes: firm.holdMinutes, reportDueDays: firm.reportDueDays, name: firm.name, phone: firm.phone },
      office: office ?? null,
      services: sortBy(all(t, 'service'), ({ position }) => position),
      providers: sortBy(
        all(t, 'provider'),
        ({ costCents }) => costCents,
        ({ id }) => id,
      ).map((p) => ({ ...p, licenseUntil: isoDay(p.licenseUntil), insuranceUntil: isoDay(p.insuranceUntil) })),
      visitKinds: sortBy(all(t, 'visitKind'), ({ key }) => key),
      rules: withBody(inForce(all(t, 'bookingRules'), at)),
      schedule: withBody(
        inForce(
          all(t, 'feeSchedule').filter(({ state }) => state === 'in_force'),
          at,
        ),
      ),
    },
  ];
}

function updateNeed(t: Tables, [jobId, kind, state, details, at, person, open]: readonly any[]) {
  const rows = by(t, 'jobNeed', 'jobId', jobId).filter((need) => need.kind === kind && (!open || ['open', 'asked'].includes(need.state)));
  const ends = ['settled', 'refused', 'not_needed'].includes(state);
  for (const need of rows) {
    Object.assign(need, {
      state,
      details: { ...need.details, ...JSON.parse(details) },
      settledAt: ends ? new Date(at) : null,
      settledBy: ends ? person : null,
    });
    if (state === 'asked') need.askedAt = new Date(at);
  }
  return touched(rows.length);
}

const jobParties = (t: Tables, jobId: string) =>
  sortBy(by(t, 'jobParty', 'jobId', jobId), ({ id }) => id).map((jp) => {
    const party = one(t, 'party', jp.partyId)!;
    return { ...jp, name: party.name, email: party.email };
  });

function ordered(t: Tables, [jobId]: readonly any[]) {
  const chosen = by(t, 'jobService', 'jobId', jobId);
  return [
    {
      services: sortBy(chosen, (s) => one(t, 'service', s.serviceKey, 'key')!.position).map(({ serviceKey }) => serviceKey),
      providers: sortBy(chosen, ({ serviceKey }) => serviceKey).flatMap(({ serviceKey, providerId }) =>
        providerId ? [{ service: serviceKey, providerId }] : [],
      ),
      people: sortBy(by(t, 'jobParty', 'jobId', jobId), ({ id }) => id).map(({ partyId, role }) => ({ partyId, role })),
      samePairRefused: by(t, 'jobNeed', 'jobId', jobId).some(({ kind, state }) => kind === 'same_pair' && state === 'refused'),
    },
  ];
}

const linesInForce = (t: Tables, jobId: string) =>
  sortBy(
    by(t, 'jobFeeLine', 'jobId', jobId).filter(({ withdrawnAt }) => withdrawnAt === null),
    ({ position }) => position,
  );

export const JOB_ANSWERS: readonly Answer[] = [
  { marks: [`(SELECT json_build_object('holdMinutes'`], reply: catalog },
  {
    marks: ['FROM booking_rules WHERE id = $1::uuid) AS rules'],
    reply: (t, [rules, schedule]) => [
      { rules: withBody(one(t, 'bookingRules', rules)), schedule: withBody(one(t, 'feeSchedule', schedule)) },
    ],
  },
  {
    marks: ["SELECT body->'desk' AS desk FROM booking_rules"],
    reply: (t, [rules]) => by(t, 'bookingRules', 'id', rules).map(({ body }) => ({ desk: (body as { desk?: unknown }).desk ?? null })),
  },
  { marks: ['FROM town ORDER BY name'], reply: (t) => sortBy(all(t, 'town'), ({ name }) => name) },
  { marks: ['client_attends AS "clientAttends", version FROM job'], reply: (t, [id]) => by(t, 'job', 'id', id).map(jobOf) },
  {
    marks: ['(coalesce(max(seq), 0) + 1)::int AS seq FROM job_event'],
    reply: (t, [jobId]) => [{ seq: by(t, 'jobEvent', 'jobId', jobId).length + 1 }],
  },
  { marks: ['AS "samePairRefused"'], reply: ordered },
  {
    marks: ['SELECT rule_key AS rule', 'FROM job_fee_line'],
    reply: (t, [jobId]) => linesInForce(t, jobId).map((line) => ({ ...line, rule: line.ruleKey })),
  },
  {
    marks: ['UPDATE job_fee_line SET withdrawn_at'],
    reply: (t, [jobId, at]) => linesInForce(t, jobId).map((line) => (line.withdrawnAt = new Date(at))),
  },
  { marks: ['UPDATE job_need SET state = $3'], reply: updateNeed },
  {
    marks: ['SELECT kind FROM job_need'],
    reply: (t, [jobId]) =>
      sortBy(
        by(t, 'jobNeed', 'jobId', jobId).filter(({ state }) => ['open', 'asked'].includes(state)),
        ({ kind }) => kind,
      ).map(({ kind }) => ({ kind })),
  },
  {
    marks: ['FROM party WHERE id = ANY'],
    reply: (t, [ids]) =>
      sortBy(
        [...new Set<string>(ids)].flatMap((id) => by(t, 'party', 'id', id)),
        ({ id }) => id,
      ),
  },
  { marks: ['FROM job_party jp JOIN party p'], reply: (t, [jobId]) => jobParties(t, jobId) },
  { marks: [KNOWN, 'WHERE p.address_key = $1'], reply: (t, [key]) => by(t, 'property', 'addressKey', key).map(knownProperty(t)) },
  { marks: [KNOWN, 'WHERE p.id = $1::uuid'], reply: (t, [id]) => by(t, 'property', 'id', id).map(knownProperty(t)) },
  {
    marks: ['AS goes', 'FROM job j WHERE j.id = $1::uuid'],
    reply: (t, [id, personId]) => by(t, 'job', 'id', id).map(() => ({ goes: goesTo(t, id, personId) })),
  },
];
