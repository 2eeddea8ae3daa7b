// Who comes to a visit besides its pair, and how long its time is held.
import type { ObserverReason } from '@backsight/domain/schedule/crew';
import type { Reader, Tx } from '../database.ts';

export type ObserverRow = { personId: string; name: string; email: string; reason: ObserverReason };

export const findObservers = (reader: Reader, visitId: string): Promise<ObserverRow[]> =>
  reader.rows<ObserverRow>(
    `SELECT o.person_id::text AS "personId", p.name, p.email, o.reason FROM observer o JOIN person p ON p.id = o.person_id WHERE o.visit_id = $1::uuid ORDER BY p.name, p.id`,
    [visitId],
  );

/** Puts somebody beside the pair. Constraints: observer_taken, person_elsewhere. */
export async function insertObserver(
  tx: Tx,
  o: { visitId: string; personId: string; reason: string; startsAt: Date; endsAt: Date; live: boolean },
): Promise<void> {
  await tx.db.observer.create({ data: o });
}

export const deleteObservers = async (tx: Tx, visitId: string, personIds: readonly string[]): Promise<number> =>
  (await tx.db.observer.deleteMany({ where: { visitId, personId: { in: [...personIds] } } })).count;

export type HoldRow = { id: string; state: string; holdEndsAt: Date | null; holdExtended: boolean };

/** The held visit of a job that is locked. */
export const findHold = async (reader: Reader, jobId: string): Promise<HoldRow | null> =>
  (
    await reader.rows<HoldRow>(
      `SELECT id::text AS id, state, hold_ends_at AS "holdEndsAt", hold_extended AS "holdExtended" FROM visit WHERE job_id = $1::uuid AND state = 'held' ORDER BY starts_at LIMIT 1`,
      [jobId],
    )
  )[0] ?? null;

export const extendHoldOf = async (tx: Tx, visitId: string, until: Date): Promise<boolean> =>
  (
    await tx.db.visit.updateMany({
      where: { id: visitId, state: 'held', holdExtended: false },
      data: { holdEndsAt: until, holdExtended: true, version: { increment: 1 } },
    })
  ).count > 0;

/** People of the firm who were at this property for clients other than those of the job. */
export const peopleForOtherClients = async (reader: Reader, propertyId: string, clientIds: readonly string[]): Promise<string[]> =>
  (
    await reader.rows<{ id: string }>(
      `SELECT DISTINCT a.person_id::text AS id FROM job j JOIN visit v ON v.job_id = j.id AND v.state IN ('on_site', 'done', 'ended', 'before') JOIN assignment a ON a.visit_id = v.id
       WHERE j.property_id = $1::uuid AND NOT EXISTS (SELECT FROM job_party c WHERE c.job_id = j.id AND c.role = 'client' AND c.party_id = ANY($2::uuid[])) ORDER BY 1`,
      [propertyId, clientIds],
    )
  ).map(({ id }) => id);

export type CrewRow = {
  visits: {
    id: string;
    kind: string;
    kindName: string;
    state: string;
    startsAt: Date;
    endsAt: Date;
    walkThroughMinutes: number;
    holdExtended: boolean;
    version: number;
  }[];
  observers: { visitId: string; personId: string; name: string; reason: ObserverReason }[];
  services: {
    service: string;
    name: string;
    providerId: string | null;
    provider: string | null;
    phone: string | null;
    agreedCents: number | null;
    contractsWithUs: boolean | null;
    startsAt: string | null;
    minutes: number | null;
  }[];
  items: string[];
};

const list = (select: string): string => `(SELECT coalesce(json_agg(t), '[]') FROM (${select}) t)`;
const iso = (column: string): string => `to_char(${column} AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`;

const CREW = `SELECT
  ${list(`SELECT v.id, v.kind, k.name AS "kindName", v.state, ${iso('v.starts_at')} AS "startsAt", ${iso('v.ends_at')} AS "endsAt", v.walk_through_minutes AS "walkThroughMinutes", v.hold_extended AS "holdExtended", v.version
     FROM visit v JOIN visit_kind k ON k.key = v.kind WHERE v.job_id = $1::uuid AND v.live ORDER BY v.starts_at, v.id`)} AS visits,
  ${list(`SELECT o.visit_id AS "visitId", o.person_id AS "personId", p.name, o.reason FROM observer o JOIN visit v ON v.id = o.visit_id JOIN person p ON p.id = o.person_id WHERE v.job_id = $1::uuid AND v.live ORDER BY p.name`)} AS observers,
  ${list(`SELECT s.key AS service, s.name, p.id AS "providerId", p.name AS provider, p.phone, js.agreed_cents AS "agreedCents", js.contracts_with_us AS "contractsWithUs",
       (SELECT ${iso(`(w.starts_at + w.offset_minutes * interval '1 minute')`)} FROM provider_visit w JOIN visit v ON v.id = w.visit_id WHERE v.job_id = js.job_id AND w.service_key = js.service_key AND w.live ORDER BY w.starts_at LIMIT 1) AS "startsAt",
       (SELECT w.minutes FROM provider_visit w JOIN visit v ON v.id = w.visit_id WHERE v.job_id = js.job_id AND w.service_key = js.service_key AND w.live ORDER BY w.starts_at LIMIT 1) AS minutes
     FROM job_service js JOIN service s ON s.key = js.service_key AND s.provider_only LEFT JOIN provider p ON p.id = js.provider_id WHERE js.job_id = $1::uuid ORDER BY s.position`)} AS services,
  (SELECT coalesce(json_agg(i.item ORDER BY i.position), '[]') FROM reinspection_item i WHERE i.job_id = $1::uuid) AS items`;

/** Visits that count, who comes along, the outside services with what was agreed, and what a re-inspection is limited to. */
export async function findCrew(reader: Reader, jobId: string): Promise<CrewRow> {
  const [row] = await reader.rows<CrewRow>(CREW, [jobId]);
  return { ...row!, visits: row!.visits.map((v) => ({ ...v, startsAt: new Date(v.startsAt), endsAt: new Date(v.endsAt) })) };
}

export async function saveReinspectionItems(tx: Tx, jobId: string, items: readonly string[]): Promise<void> {
  await tx.db.reinspectionItem.createMany({ data: items.map((item, position) => ({ jobId, position, item })) });
}
