// What makes records without signal possible: what was handed out ahead, the devices that write, and ids that stand for others.
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import type { Prisma } from '../generated/client.ts';
import type { Reader, Tx } from '../database.ts';

/** The frozen basis of a record. */
export type OfferBody = {
  day: string;
  facts: PropertyFacts;
  services: string[];
  serviceNames: Record<string, string>;
  crewSize: number;
  /** Chooses the system that is looked at twice; null where the visit is not in the sample. */
  doubleLook?: number | null;
};
export type OfferRow = {
  id: string;
  visitId: string;
  personId: string;
  revisions: string[];
  gateMissing: string[];
  body: OfferBody;
  recordedAt: Date;
};

const OFFER = `SELECT id::text AS id, visit_id::text AS "visitId", person_id::text AS "personId", revisions::text[] AS revisions, gate_missing AS "gateMissing", body, recorded_at AS "recordedAt" FROM site_offer`;

/** What a person was handed last for each of the visits. */
export const newestOffers = (reader: Reader, personId: string, visitIds: readonly string[]): Promise<OfferRow[]> =>
  reader.rows<OfferRow>(
    `SELECT DISTINCT ON (o."visitId") o.* FROM (${OFFER}) o WHERE o."personId" = $1 AND o."visitId" = ANY($2::text[]) ORDER BY o."visitId", o."recordedAt" DESC, o.id DESC`,
    [personId, visitIds],
  );

export const findOffer = async (reader: Reader, id: string): Promise<OfferRow | null> =>
  (await reader.rows<OfferRow>(`${OFFER} WHERE id = $1::uuid`, [id]))[0] ?? null;

export async function addOffer(tx: Tx, offer: OfferRow): Promise<void> {
  await tx.db.siteOffer.create({ data: { ...offer, body: offer.body as unknown as Prisma.InputJsonObject } });
}

/** Whose device this is; null for one that was never heard of. */
export const ownerOfDevice = async (reader: Reader, id: string): Promise<string | null> =>
  (await reader.rows<{ by: string }>('SELECT person_id::text AS by FROM site_device WHERE id = $1::uuid', [id]))[0]?.by ?? null;

/** Notes that a device was heard, and how far its clock is off. Constraint: device_of_another. */
export async function hearDevice(tx: Tx, d: { id: string; personId: string; clockOffsetMs: number; at: Date }): Promise<void> {
  const heard = { personId: d.personId, clockOffsetMs: BigInt(d.clockOffsetMs), lastSeenAt: d.at };
  await tx.db.siteDevice.upsert({ where: { id: d.id }, create: { id: d.id, firstSeenAt: d.at, ...heard }, update: heard });
}

export type AliasRow = { id: string; standsFor: string };
export const aliasesOf = (reader: Reader, recordId: string): Promise<AliasRow[]> =>
  reader.rows<AliasRow>('SELECT id::text AS id, stands_for::text AS "standsFor" FROM record_alias WHERE record_id = $1::uuid ORDER BY id', [
    recordId,
  ]);

/** Remembers that an id of a second phone stands for what the record already has. Sent again it changes nothing. */
export async function addAliases(tx: Tx, recordId: string, aliases: readonly AliasRow[], at: Date): Promise<void> {
  const data = aliases.map((alias) => ({ ...alias, recordId, recordedAt: at }));
  if (data.length > 0) await tx.db.recordAlias.createMany({ data, skipDuplicates: true });
}
