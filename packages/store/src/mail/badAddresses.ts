// Addresses from which mail came back.
import type { Reader, Tx } from '../database.ts';

/** Why nothing is sent to the address; null when nothing is known against it. */
export const badReason = async (reader: Reader, address: string): Promise<string | null> =>
  (await reader.rows<{ reason: string }>('SELECT reason FROM bad_address WHERE address = lower($1) AND cleared_at IS NULL', [address]))[0]
    ?.reason ?? null;

/** Marks an address; one that is marked stays as it is. */
export async function markBad(tx: Tx, row: { id: string; address: string; reason: string; mailId: string; at: Date }): Promise<void> {
  if ((await badReason(tx, row.address)) !== null) return;
  const { at, address, ...rest } = row;
  await tx.db.badAddress.create({ data: { ...rest, address: address.toLowerCase(), recordedAt: at } });
}

/** Takes the mark away; answers whether there was one. */
export const clearBad = async (tx: Tx, address: string, at: Date): Promise<boolean> =>
  (await tx.db.badAddress.updateMany({ where: { address: address.toLowerCase(), clearedAt: null }, data: { clearedAt: at } })).count > 0;

export type BadAddressRow = { address: string; reason: string; recordedAt: Date; people: string[] };

/** Marked addresses that somebody on file still has: outside the firm or of it. */
export const listBad = (reader: Reader): Promise<BadAddressRow[]> =>
  reader.rows<BadAddressRow>(
    `SELECT b.address, b.reason, b.recorded_at AS "recordedAt", array_agg(DISTINCT who.name) AS people FROM bad_address b
     CROSS JOIN LATERAL (SELECT name FROM party WHERE lower(email) = b.address UNION ALL SELECT name FROM person WHERE ended_on IS NULL AND lower(email) = b.address) who
     WHERE b.cleared_at IS NULL GROUP BY b.id ORDER BY b.recorded_at DESC`,
  );
