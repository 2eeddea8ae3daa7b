// Answers about agreement texts, agreements, signers, and the gate of a visit.
import { touched, type Answer } from '../answer.ts';
import { all, by, one, type Row, type Tables } from '../tables.ts';
import { dayOf, isoDay, sortBy, sum } from '../when.ts';
import { stateOf, zoneOfJob } from './fees.ts';
import { crewOf } from './schedule.ts';

const superseded = (t: Tables, id: string): boolean => by(t, 'agreement', 'supersedesId', id).length > 0;

const newestOf = (t: Tables, jobId: string): Row | undefined =>
  sortBy(
    by(t, 'agreement', 'jobId', jobId).filter(({ id }) => !superseded(t, id)),
    (a) => -a.issuedAt.getTime(),
  )[0];

function agreementOf(t: Tables, a: Row) {
  const text = one(t, 'agreementText', a.textId)!;
  return {
    ...a,
    jobNumber: one(t, 'job', a.jobId)!.number,
    title: text.title,
    consentText: text.consentText,
    reviewed: text.attorney !== null,
  };
}

function answerOf(t: Tables, signerId: string) {
  const last = sortBy(by(t, 'signerAnswer', 'signerId', signerId), ({ id }) => id).at(-1);
  return last ? { kind: last.kind, reason: one(t, 'keptText', last.reasonTextId)!.body, happenedAt: last.happenedAt.toISOString() } : null;
}

function signerOf(t: Tables, s: Row) {
  const party = one(t, 'party', s.partyId)!;
  const signed = one(t, 'signature', s.id, 'signerId');
  const signature = signed && {
    name: one(t, 'keptText', signed.nameTextId)!.body,
    sha256: signed.sha256,
    consentSha256: signed.consentSha256,
    method: signed.method,
    device: signed.device,
    happenedAt: signed.happenedAt.toISOString(),
    recordedAt: signed.recordedAt.toISOString(),
    strokes: signed.strokesTextId ? one(t, 'keptText', signed.strokesTextId)!.body : null,
    interpreter: signed.interpreterTextId ? one(t, 'keptText', signed.interpreterTextId)!.body : null,
    formatWord: signed.formatWord,
    photoSha256: signed.photoSha256,
    keptWhere: signed.keptWhere,
  };
  return {
    ...s,
    jobId: one(t, 'agreement', s.agreementId)!.jobId,
    name: party.name,
    email: party.email,
    authorityFile: null,
    answer: answerOf(t, s.id),
    signature,
  };
}

function proofs(t: Tables, [agreementId]: readonly string[]) {
  const signers = by(t, 'signer', 'agreementId', agreementId);
  const signatures = sortBy(
    signers.flatMap(({ id }) => by(t, 'signature', 'signerId', id)),
    (g) => g.recordedAt.getTime(),
    (g) => g.id,
  );
  return signatures.map((g) => {
    const signer = one(t, 'signer', g.signerId)!;
    const kept = (id: string | null) => (id === null ? null : one(t, 'keptText', id)!.body);
    return {
      ...{ ...signer, ...g, signer: one(t, 'party', signer.partyId)!.name, signedAs: kept(g.nameTextId) },
      ...{ strokes: kept(g.strokesTextId), interpreter: kept(g.interpreterTextId), photo: g.photoSha256 },
      authorityFile: signer.authoritySha256,
    };
  });
}

/** Number of the license on a day: the inspector's before any other. */
function licenseOn(t: Tables, personId: string, day: string): string | null {
  const valid = by(t, 'license', 'personId', personId).filter((l) => isoDay(l.fromDay)! <= day && day <= isoDay(l.untilDay)!);
  return (
    sortBy(
      valid,
      ({ kind }) => (kind === 'home_inspector' ? 0 : 1),
      ({ id }) => id,
    )[0]?.number ?? null
  );
}

function visitInWords(t: Tables, jobId: string, zone: string) {
  const [visit] = sortBy(
    by(t, 'visit', 'jobId', jobId).filter(({ live }) => live),
    (v) => v.startsAt.getTime(),
  );
  if (!visit) return null;
  const day = dayOf(visit.startsAt, zone);
  const pair = crewOf(t, visit.id).map(({ personId }) => ({
    name: one(t, 'person', personId)!.name,
    license: licenseOn(t, personId, day),
  }));
  return { id: visit.id, version: visit.version, startsAt: visit.startsAt.toISOString(), endsAt: visit.endsAt.toISOString(), pair };
}

function jobForAgreement(t: Tables, [jobId]: readonly string[]) {
  const job = one(t, 'job', jobId);
  if (!job) return [];
  const [place, firm, zone] = [one(t, 'property', job.propertyId)!, all(t, 'firm')[0]!, zoneOfJob(t, job)];
  const ordered = by(t, 'jobService', 'jobId', jobId).map((x) => ({
    service: one(t, 'service', x.serviceKey, 'key')!,
    provider: x.providerId ? one(t, 'provider', x.providerId) : null,
  }));
  const lines = by(t, 'jobFeeLine', 'jobId', jobId).filter(({ withdrawnAt }) => withdrawnAt === null);
  return [
    {
      id: job.id,
      number: job.number,
      kind: job.kind,
      terms: job.terms,
      address: `${place.address}, ${place.town}, ${stateOf(t, job).slice(3)} ${place.zip}`,
      zone,
      firm: firm.name,
      firmPhone: firm.phone,
      reportDueDays: firm.reportDueDays,
      visit: visitInWords(t, job.id, zone),
      services: sortBy(
        ordered,
        ({ service }) => (service.base ? 0 : 1),
        ({ service }) => service.position,
      ).map(({ service, provider }) => ({
        name: service.name,
        provider: provider?.name ?? null,
        contractsWithUs: provider?.contractsWithUs ?? null,
      })),
      feeCents: sum(lines, ({ cents }) => cents),
      feeLines: lines.length,
      parties: sortBy(by(t, 'jobParty', 'jobId', jobId), ({ id }) => id).map((r) => {
        const { id: partyId, name, email, minor } = one(t, 'party', r.partyId)!;
        return { partyId, name, email, minor, role: r.role };
      }),
    },
  ];
}

function gateFacts(t: Tables, [jobId]: readonly string[]) {
  const job = one(t, 'job', jobId)!;
  const newest = newestOf(t, job.id);
  const signers =
    newest &&
    sortBy(by(t, 'signer', 'agreementId', newest.id), ({ id }) => id).map((s) => ({
      name: one(t, 'party', s.partyId)!.name,
      signed: one(t, 'signature', s.id, 'signerId') !== null,
      answer: answerOf(t, s.id),
    }));
  return [
    {
      jobKind: job.kind,
      terms: job.terms,
      everySigner: all(t, 'firm')[0]!.everySigner,
      feeCents: sum(
        by(t, 'jobFeeLine', 'jobId', jobId).filter(({ withdrawnAt }) => withdrawnAt === null),
        ({ cents }) => cents,
      ),
      signers: signers ?? null,
    },
  ];
}

const visitForGate = (t: Tables, [id]: readonly string[]) =>
  by(t, 'visit', 'id', id).map((v) => ({
    jobId: v.jobId,
    state: v.state,
    startsAt: v.startsAt,
    personIds: crewOf(t, v.id).map(({ personId }) => personId),
  }));

const isOnJob = (t: Tables, [jobId, personId]: readonly string[]) =>
  by(t, 'visit', 'jobId', jobId)
    .filter((v) => crewOf(t, v.id).some((a) => a.personId === personId))
    .slice(0, 1);

const nameOf = (t: Tables, id: string | null): string | null => (id === null ? null : one(t, 'person', id)!.name);
const textOf = (t: Tables, text: Row) => ({
  ...text,
  attorneyOn: isoDay(text.attorneyOn),
  author: nameOf(t, text.authorId),
  approver: nameOf(t, text.approverId),
});

function textInForce(t: Tables, [kind, until]: readonly string[]) {
  const at = new Date(until!);
  const there = all(t, 'agreementText').filter(
    (x) => x.kind === kind && x.inForceFrom !== null && x.inForceFrom <= at && (x.withdrawnAt === null || x.withdrawnAt > at),
  );
  return sortBy(
    there,
    (x) => -x.inForceFrom.getTime(),
    (x) => -x.number,
  )
    .slice(0, 1)
    .map((text) => textOf(t, text));
}

function jobForText(t: Tables, [id]: readonly string[]) {
  const job = one(t, 'job', id);
  if (!job) return [];
  return [
    {
      facts: job.facts,
      serviceKeys: by(t, 'jobService', 'jobId', job.id)
        .map(({ serviceKey }) => serviceKey)
        .sort(),
      jurisdiction: stateOf(t, job),
      hours: one(t, 'office', job.officeId)!.hours,
      items: sortBy(by(t, 'reinspectionItem', 'jobId', job.id), ({ position }) => position).map(({ item }) => item),
      firstJob: job.parentId ? one(t, 'job', job.parentId)!.number : null,
      rulesId: job.rulesId,
      scheduleId: job.scheduleId,
      desk: (one(t, 'bookingRules', job.rulesId)!.body as { desk?: unknown }).desk ?? null,
      firmStates: all(t, 'firm')[0]!.states,
    },
  ];
}

/** The client is to be there from the start, or for the walk-through at the end, of the next or last visit that counts. */
function attendance(t: Tables, [jobId]: readonly string[]) {
  const { kind, attendees, arrives } = one(t, 'job', jobId)!;
  const [visit] = sortBy(
    by(t, 'visit', 'jobId', jobId).filter((v) => v.live && v.kind === kind),
    (v) => (v.state === 'ended' ? 1 : 0),
    (v) => -v.startsAt.getTime(),
  );
  if (!visit || arrives === 'not_at_all') return [{ attendees, arrives, arriveAt: null }];
  const start = visit.expectedAt ?? visit.startsAt;
  const later = start.getTime() - visit.startsAt.getTime() - visit.walkThroughMinutes * 60_000;
  return [{ attendees, arrives, arriveAt: arrives === 'start' ? start : new Date(visit.endsAt.getTime() + later) }];
}

const SIGNER = 's.token_ends_at AS "tokenEndsAt"';
const AGREEMENT = 'a.supersedes_id::text AS "supersedesId"';

export const AGREEMENT_ANSWERS: readonly Answer[] = [
  { marks: ['FROM agreement_text t', 'WHERE t.kind = $1 AND t.in_force_from <= $2'], reply: textInForce },
  {
    marks: ['FROM agreement_text t', 'WHERE t.id = $1::uuid'],
    reply: (t, [id]) => by(t, 'agreementText', 'id', id).map((x) => textOf(t, x)),
  },
  { marks: ['array_agg(s.service_key ORDER BY s.service_key)', 'WHERE j.id = $1::uuid'], reply: jobForText },
  {
    marks: [AGREEMENT, 'WHERE a.job_id = $1::uuid AND NOT EXISTS'],
    reply: (t, [jobId]) => [newestOf(t, jobId)].filter((a) => a !== undefined).map((a) => agreementOf(t, a)),
  },
  { marks: [AGREEMENT, 'WHERE a.id = $1::uuid'], reply: (t, [id]) => by(t, 'agreement', 'id', id).map((a) => agreementOf(t, a)) },
  { marks: ['g.ip_hash AS "ipHash"', 'WHERE s.agreement_id = $1::uuid'], reply: proofs },
  {
    marks: [SIGNER, 'WHERE s.agreement_id = $1::uuid'],
    reply: (t, [id]) =>
      sortBy(
        by(t, 'signer', 'agreementId', id),
        (s) => one(t, 'party', s.partyId)!.name,
        (s) => s.id,
      ).map((s) => signerOf(t, s)),
  },
  { marks: [SIGNER, 'WHERE s.id = $1::uuid'], reply: (t, [id]) => by(t, 'signer', 'id', id).map((s) => signerOf(t, s)) },
  {
    marks: [SIGNER, 'WHERE s.token_hash = $1'],
    reply: (t, [hash]) =>
      all(t, 'signer')
        .filter((s) => s.tokenHash === hash)
        .map((s) => signerOf(t, s)),
  },
  { marks: ['j.attendees, j.arrives', 'AS "arriveAt"'], reply: attendance },
  { marks: ['SELECT 1 FROM signer WHERE id'], reply: () => touched() },
  { marks: ['AS address, o.zone, f.name AS firm', 'j.terms', 'AS "feeLines"'], reply: jobForAgreement },
  { marks: ['AS "personIds"', 'FROM visit v WHERE id = $1::uuid'], reply: visitForGate },
  { marks: ['f.every_signer AS "everySigner"', 'FROM job j CROSS JOIN firm f'], reply: gateFacts },
  {
    marks: ['FROM gate_override o JOIN person p'],
    reply: (t, [visitId]) =>
      sortBy(by(t, 'gateOverride', 'visitId', visitId), (o) => o.id).map((o) => ({ ...o, by: one(t, 'person', o.actorId)!.name })),
  },
  { marks: ['SELECT 1 FROM assignment s JOIN visit v', 's.person_id = $2::uuid LIMIT 1'], reply: isOnJob },
];
