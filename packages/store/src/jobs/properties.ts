// Properties and what is known of them.
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import type { Prisma } from '../generated/client.ts';
import type { Reader, Tx } from '../database.ts';

export type PropertyRow = {
  id: string;
  address: string;
  town: string;
  zip: string;
  lat: number;
  lon: number;
  /** Where the place comes from: the middle of the town or of the ZIP code, or exact coordinates. */
  placeBy: 'town' | 'zip' | 'exact';
  /** Like US-WI; empty: that of the office. */
  state: string;
  addressKey: string;
};
/** `inspected`: how many jobs there were for anybody; never for whom. */
export type KnownProperty = PropertyRow & {
  inspected: number;
  version: number;
  /** Why the owner is asked before booking. */ askOwner: string | null;
};

const KNOWN = `SELECT p.id::text AS id, p.address, p.town, p.zip, p.state, p.lat, p.lon, p.place_by AS "placeBy", p.version, p.ask_owner AS "askOwner", p.address_key AS "addressKey",
  (SELECT count(*) FROM job j WHERE j.property_id = p.id AND j.state NOT IN ('held', 'lapsed', 'cancelled'))::int AS inspected FROM property p`;

export const findPropertyByKey = async (reader: Reader, key: string): Promise<KnownProperty | null> =>
  (await reader.rows<KnownProperty>(`${KNOWN} WHERE p.address_key = $1`, [key]))[0] ?? null;

export const findProperty = async (reader: Reader, id: string): Promise<KnownProperty | null> =>
  (await reader.rows<KnownProperty>(`${KNOWN} WHERE p.id = $1::uuid`, [id]))[0] ?? null;

/** Marks a property, or takes the mark away; answers whether it is on file. */
export const markProperty = async (tx: Tx, id: string, askOwner: string | null): Promise<boolean> =>
  (await tx.db.property.updateMany({ where: { id }, data: { askOwner } })).count === 1;

/** Files a property unless its address is filed already; answers the one on file. */
export async function fileProperty(tx: Tx, p: PropertyRow & { recordedAt: Date }): Promise<KnownProperty> {
  await tx.db.property.createMany({ data: [p], skipDuplicates: true });
  return (await findPropertyByKey(tx, p.addressKey))!;
}

/** Adds what is known from now on. */
export async function saveFacts(
  tx: Tx,
  sheet: { id: string; propertyId: string; facts: PropertyFacts; recordedAt: Date; recordedBy: string | null },
): Promise<void> {
  await tx.db.factSheet.create({ data: { ...sheet, facts: sheet.facts as Prisma.InputJsonValue } });
}

/** Gives a property its exact place if the version is still the one that was seen; answers whether it was. */
export const setExactPlace = async (tx: Tx, id: string, version: number, place: { lat: number; lon: number }): Promise<boolean> =>
  (await tx.db.property.updateMany({ where: { id, version }, data: { ...place, placeBy: 'exact', version: { increment: 1 } } })).count ===
  1;

/** Says in which state a property lies if the version is still the one that was seen; answers whether it was. */
export const setPropertyState = async (tx: Tx, id: string, version: number, state: string): Promise<boolean> =>
  (await tx.db.property.updateMany({ where: { id, version }, data: { state, version: { increment: 1 } } })).count === 1;
