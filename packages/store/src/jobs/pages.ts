// The job page and the list of jobs.
import type { JobKind, JobState, NeedKind, NeedState, PartyRole, Source, Terms } from '@backsight/domain/jobs/words';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import type { Reader } from '../database.ts';
import { JOBS_OF } from '../ownJobs.ts';
import { anywhere } from '../find.ts';
import { holdsWords, isCommon } from '../jobWords.ts';

export type JobPage = {
  id: string;
  number: number;
  kind: JobKind;
  state: JobState;
  facts: PropertyFacts;
  terms: Terms;
  objectionOn: string | null;
  source: Source;
  clientAttends: boolean;
  version: number;
  recordedAt: string;
  /** Of a job that was done before and came with a spreadsheet. */
  past: { bringInId: string; by: string; at: string; reference: string; deliveredOn: string | null; timed: boolean } | null;
  property: {
    id: string;
    address: string;
    town: string;
    zip: string;
    state: string;
    lat: number;
    lon: number;
    placeBy: 'town' | 'zip' | 'exact';
    version: number;
    inspectedBefore: boolean;
  };
  zone: string;
  services: { key: string; name: string; provider: string | null; extraVisit: string | null }[];
  parties: {
    id: string;
    partyId: string;
    role: PartyRole;
    name: string;
    email: string | null;
    phone: string | null;
    minor: boolean;
    mayReceiveReport: boolean;
    consentAt: string | null;
    askOwner: string | null;
    language: string;
    assistance: 'none' | 'relay' | 'interpreter';
    largePrint: boolean;
    badAddress: boolean;
  }[];
  feeLines: { rule: string; label: string; reason: string; assumption: string | null; cents: number }[];
  needs: {
    kind: NeedKind;
    state: NeedState;
    dueAt: string;
    askedAt: string | null;
    settledAt: string | null;
    settledBy: string | null;
    details: Record<string, string>;
  }[];
  visits: {
    id: string;
    kind: string;
    kindName: string;
    state: string;
    startsAt: string;
    endsAt: string;
    holdEndsAt: string | null;
    promised: { from: string; until: string } | null;
    reportMinutes: number;
    version: number;
    because: { sentence?: string } & Record<string, unknown>;
    pair: { place: string; personId: string; name: string }[];
    observers: string[];
    kit: string[];
    recordState: string | null;
  }[];
  events: { seq: number; kind: string; state: JobState; happenedAt: string; actor: string | null; text: string | null; details: unknown }[];
  agreement: { id: string; issuedAt: string; signers: number; signed: number } | null;
  invoice: { id: string; number: number | null; state: string; totalCents: number; paidCents: number; dueOn: string } | null;
  report: { id: string; version: number; handedOver: boolean } | null;
  callbacks: { id: string; number: number; kind: string; state: string }[];
};

/** ISO text of an instant, as the API says it. */
const iso = (column: string): string => `to_char(${column} AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`;
const list = (select: string): string => `(SELECT coalesce(json_agg(t), '[]') FROM (${select}) t)`;
const one = (select: string): string => `(SELECT to_json(t) FROM (${select}) t)`;

const VISITS = `SELECT v.id, v.kind, k.name AS "kindName", v.state, ${iso('v.starts_at')} AS "startsAt", ${iso('v.ends_at')} AS "endsAt", ${iso('v.hold_ends_at')} AS "holdEndsAt",
  CASE WHEN v.promised_from IS NOT NULL THEN json_build_object('from', ${iso('v.promised_from')}, 'until', ${iso('v.promised_until')}) END AS promised, v.report_minutes AS "reportMinutes", v.version, v.because,
  ${list(`SELECT a.place, a.person_id AS "personId", p.name FROM assignment a JOIN person p ON p.id = a.person_id WHERE a.visit_id = v.id ORDER BY a.place`)} AS pair,
  (SELECT coalesce(json_agg(p.name), '[]') FROM observer o JOIN person p ON p.id = o.person_id WHERE o.visit_id = v.id) AS observers,
  (SELECT coalesce(json_agg(kk.name ORDER BY kk.name), '[]') FROM visit_kit vk JOIN kit_kind kk ON kk.key = vk.kind WHERE vk.visit_id = v.id) AS kit,
  (SELECT r.state FROM site_record r WHERE r.visit_id = v.id) AS "recordState"
  FROM visit v JOIN visit_kind k ON k.key = v.kind WHERE v.job_id = j.id ORDER BY v.starts_at, v.id`;

const PAGE = `SELECT j.id::text AS id, j.number, j.kind, j.state, j.facts, j.terms, j.objection_on::text AS "objectionOn", j.source, j.client_attends AS "clientAttends", j.version, ${iso('j.recorded_at')} AS "recordedAt",
  json_build_object('id', pr.id, 'address', pr.address, 'town', pr.town, 'zip', pr.zip, 'state', coalesce(nullif(pr.state, ''), (SELECT o.jurisdiction FROM office o WHERE o.id = j.office_id)), 'lat', pr.lat, 'lon', pr.lon, 'placeBy', pr.place_by, 'version', pr.version,
    'inspectedBefore', EXISTS (SELECT FROM job o WHERE o.property_id = pr.id AND o.id <> j.id AND o.state IN ('on_site', 'visited', 'reported'))) AS property, (SELECT o.zone FROM office o WHERE o.id = j.office_id) AS zone,
  ${one(`SELECT b.id AS "bringInId", w.name AS by, ${iso('b.brought_at')} AS at, x.reference, x.delivered_on::text AS "deliveredOn", x.timed FROM past_job x JOIN bring_in b ON b.id = j.bring_in_id JOIN person w ON w.id = b.asked_by WHERE x.job_id = j.id`)} AS past,
  ${list(`SELECT s.key, s.name, p.name AS provider, s.extra_visit AS "extraVisit" FROM job_service js JOIN service s ON s.key = js.service_key LEFT JOIN provider p ON p.id = js.provider_id WHERE js.job_id = j.id ORDER BY s.position`)} AS services,
  ${list(`SELECT jp.id, jp.party_id AS "partyId", jp.role, p.name, p.email, p.phone, p.minor, jp.may_receive_report AS "mayReceiveReport", ${iso('jp.consent_at')} AS "consentAt", p.ask_owner AS "askOwner", p.language, p.assistance, p.large_print AS "largePrint",
    EXISTS (SELECT FROM bad_address b WHERE b.address = lower(p.email) AND b.cleared_at IS NULL) AS "badAddress"
    FROM job_party jp JOIN party p ON p.id = jp.party_id WHERE jp.job_id = j.id ORDER BY jp.id`)} AS parties,
  ${list(`SELECT rule_key AS rule, label, reason, assumption, cents FROM job_fee_line WHERE job_id = j.id AND withdrawn_at IS NULL ORDER BY position`)} AS "feeLines",
  ${list(`SELECT n.kind, n.state, ${iso('n.due_at')} AS "dueAt", ${iso('n.asked_at')} AS "askedAt", ${iso('n.settled_at')} AS "settledAt", p.name AS "settledBy", n.details FROM job_need n LEFT JOIN person p ON p.id = n.settled_by WHERE n.job_id = j.id ORDER BY n.due_at, n.kind`)} AS needs,
  ${list(VISITS)} AS visits,
  ${list(`SELECT e.seq, e.kind, e.state, ${iso('e.happened_at')} AS "happenedAt", p.name AS actor, kt.body AS text, e.details FROM job_event e LEFT JOIN person p ON p.id = e.actor_id LEFT JOIN kept_text kt ON kt.id = e.text_id WHERE e.job_id = j.id ORDER BY e.seq`)} AS events,
  ${one(`SELECT a.id, ${iso('a.issued_at')} AS "issuedAt", (SELECT count(*)::int FROM signer s WHERE s.agreement_id = a.id) AS signers, (SELECT count(*)::int FROM signer s JOIN signature g ON g.signer_id = s.id WHERE s.agreement_id = a.id) AS signed
    FROM agreement a WHERE a.job_id = j.id AND a.remedy_id IS NULL AND NOT EXISTS (SELECT FROM agreement n WHERE n.supersedes_id = a.id) ORDER BY a.issued_at DESC, a.id DESC LIMIT 1`)} AS agreement,
  ${one(`SELECT i.id, i.number, i.state, i.total_cents AS "totalCents", (SELECT coalesce(-sum(m.cents), 0)::int FROM invoice_money m WHERE m.invoice_id = i.id AND m.kind IN ('payment', 'refund')) AS "paidCents", i.due_on::text AS "dueOn"
    FROM invoice i WHERE i.job_id = j.id ORDER BY i.state = 'withdrawn', i.number DESC NULLS LAST LIMIT 1`)} AS invoice,
  ${one(`SELECT r.id, r.version, EXISTS (SELECT FROM report_delivery d WHERE d.report_id = r.id) AS "handedOver" FROM report r WHERE r.job_id = j.id ORDER BY r.version DESC LIMIT 1`)} AS report,
  ${list(`SELECT c.id, c.number, c.kind, c.state FROM callback c WHERE c.job_id = j.id AND NOT c.owner_only ORDER BY c.number`)} AS callbacks
  FROM job j JOIN property pr ON pr.id = j.property_id WHERE j.id = $1::uuid`;

/** Everything on the job page in one round trip. */
export const findJobPage = async (reader: Reader, id: string): Promise<JobPage | null> =>
  (await reader.rows<JobPage>(PAGE, [id]))[0] ?? null;

export type JobLine = {
  id: string;
  number: number;
  kind: JobKind;
  state: JobState;
  address: string;
  town: string;
  client: string | null;
  startsAt: string | null;
  pair: string[];
  totalCents: number;
  openNeeds: NeedKind[];
  nextDueAt: string | null;
};

const LINE = `SELECT j.id::text AS id, j.number, j.kind, j.state, pr.address, pr.town,
  (SELECT p.name FROM job_party jp JOIN party p ON p.id = jp.party_id WHERE jp.job_id = j.id AND jp.role = 'client' ORDER BY jp.id LIMIT 1) AS client,
  ${iso('v.starts_at')} AS "startsAt", coalesce((SELECT json_agg(p.name ORDER BY a.place) FROM assignment a JOIN person p ON p.id = a.person_id WHERE a.visit_id = v.id), '[]') AS pair,
  (SELECT coalesce(sum(l.cents), 0)::int FROM job_fee_line l WHERE l.job_id = j.id AND l.withdrawn_at IS NULL) AS "totalCents",
  coalesce((SELECT json_agg(n.kind ORDER BY n.due_at) FROM job_need n WHERE n.job_id = j.id AND n.state IN ('open', 'asked', 'refused')), '[]') AS "openNeeds",
  (SELECT ${iso('min(n.due_at)')} FROM job_need n WHERE n.job_id = j.id AND n.state IN ('open', 'asked', 'refused')) AS "nextDueAt"
  FROM job j JOIN property pr ON pr.id = j.property_id
  LEFT JOIN LATERAL (SELECT id, starts_at FROM visit WHERE job_id = j.id ORDER BY (state IN ('cancelled', 'lapsed')), starts_at LIMIT 1) v ON true`;

export type JobSearch = {
  text: string;
  state: JobState | null;
  stillToGet: boolean;
  before: number | null;
  limit: number;
  only: string | null;
};

/** Jobs by number, newest first. `text` is looked for in number, address, town and the names of the job's people; `only`: jobs to which this person goes. */
export async function listJobs(reader: Reader, q: JobSearch): Promise<JobLine[]> {
  const narrowed = q.text === '' || q.only !== null || q.state !== null || q.stillToGet;
  const common = !narrowed && (await isCommon(reader, q.text));
  // Of somebody's own jobs each is held against the words (IS TRUE): joined to thousands that hold a common word, it took seconds.
  return reader.rows<JobLine>(
    `WITH found AS MATERIALIZED (SELECT j.id FROM job j WHERE ($1::text IS NULL OR $6::text IS NOT NULL) ${q.text === '' ? '' : `AND (${holdsWords(common, '$1', '$6')})${q.only === null ? '' : ' IS TRUE'}`}
     AND ($2::text IS NULL OR j.state = $2) AND ($3::boolean IS NULL OR (j.state IN ('held', 'booked') AND EXISTS (SELECT FROM job_need n WHERE n.job_id = j.id AND n.state IN ('open', 'asked', 'refused'))))
     AND ($4::int IS NULL OR j.number < $4::int) AND ${q.only === null ? '$7::uuid IS NULL' : `j.id IN (${JOBS_OF('$7::uuid')})`} ORDER BY j.number DESC LIMIT $5::int)
     ${LINE} WHERE j.id IN (SELECT id FROM found) ORDER BY j.number DESC`,
    [q.text || null, q.state, q.stillToGet || null, q.before, q.limit, anywhere(q.text), q.only],
  );
}
