// The second factor of signing in and codes for whoever lost it.
import type { Reader, Tx } from '../database.ts';

export type FactorRow = { secret: Uint8Array; confirmed: boolean; lastStep: number };

export const findFactor = async (reader: Reader, personId: string): Promise<FactorRow | null> =>
  (
    await reader.rows<FactorRow>(
      'SELECT secret, confirmed_at IS NOT NULL AS confirmed, last_step AS "lastStep" FROM second_factor WHERE person_id = $1::uuid',
      [personId],
    )
  )[0] ?? null;

/** Begins anew: what was there, confirmed or not, is gone. */
export async function beginFactor(tx: Tx, personId: string, secret: Uint8Array<ArrayBuffer>, at: Date): Promise<void> {
  await tx.db.secondFactor.deleteMany({ where: { personId } });
  await tx.db.secondFactor.create({ data: { personId, secret, recordedAt: at } });
}

/** Every secret, as it is kept. */
export const factorSecrets = (reader: Reader): Promise<{ personId: string; secret: Uint8Array }[]> =>
  reader.rows('SELECT person_id::text AS "personId", secret FROM second_factor ORDER BY person_id');

/** The same secret under another key. */
export const storeFactorSecret = (tx: Tx, personId: string, secret: Uint8Array<ArrayBuffer>) =>
  tx.db.secondFactor.update({ where: { personId }, data: { secret } });

/** Notes the step of a code that was taken. Rule: one_time_code_once. */
export const takeStep = (tx: Tx, personId: string, step: number) =>
  tx.db.secondFactor.updateMany({ where: { personId, lastStep: { lt: BigInt(step) } }, data: { lastStep: BigInt(step) } });

export const confirmFactor = (tx: Tx, personId: string, at: Date) =>
  tx.db.secondFactor.update({ where: { personId }, data: { confirmedAt: at } });

export async function removeFactor(tx: Tx, personId: string): Promise<void> {
  await tx.db.secondFactor.deleteMany({ where: { personId } });
  await tx.db.recoveryCode.deleteMany({ where: { personId } });
}

/** These take the place of all that were given before. */
export async function storeRecoveryCodes(tx: Tx, personId: string, digests: readonly string[], at: Date): Promise<void> {
  await tx.db.recoveryCode.deleteMany({ where: { personId } });
  await tx.db.recoveryCode.createMany({ data: digests.map((digest) => ({ digest, personId, recordedAt: at })) });
}

/** Uses one; answers whether it was there and unused. */
export const takeRecoveryCode = async (tx: Tx, personId: string, digest: string, at: Date): Promise<boolean> =>
  (await tx.db.recoveryCode.updateMany({ where: { personId, digest, usedAt: null }, data: { usedAt: at } })).count === 1;

export const recoveryCodesLeft = async (reader: Reader, personId: string): Promise<number> =>
  (
    await reader.rows<{ n: number }>('SELECT count(*)::int AS n FROM recovery_code WHERE person_id = $1::uuid AND used_at IS NULL', [
      personId,
    ])
  )[0]!.n;
