// Remembers the reply of every act under (actor, operation, key), so that sending twice does it once.
import type { Prisma } from './generated/client.ts';
import type { Tx } from './database.ts';

export type Known = { inputHash: string; reply: unknown };

/**
 * Claims a key, as the first write of a transaction. A twin waits here until the first one ends.
 * Returns null when the key is ours, else what is known of it.
 */
export async function claimKey(
  tx: Tx,
  k: { actor: string; operation: string; key: string; inputHash: string; forEver: boolean; at: Date },
): Promise<Known | null> {
  const claimed = await tx.rows<{ key: string }>(
    `INSERT INTO idempotency_key (actor, operation, key, input_hash, for_ever, recorded_at) VALUES ($1, $2, $3, $4, $5, $6::timestamptz)
     ON CONFLICT DO NOTHING RETURNING key`,
    [k.actor, k.operation, k.key, k.inputHash, k.forEver, k.at.toISOString()],
  );
  if (claimed.length > 0) return null;
  const [known] = await tx.rows<Known>(
    'SELECT input_hash AS "inputHash", reply FROM idempotency_key WHERE actor = $1 AND operation = $2 AND key = $3',
    [k.actor, k.operation, k.key],
  );
  if (!known) throw new Error('a claimed key vanished');
  return known;
}

/** Stores the reply beside its key, in the same transaction as the act. */
export async function storeReply(tx: Tx, actor: string, operation: string, key: string, reply: unknown): Promise<void> {
  await tx.db.idempotencyKey.update({
    where: { actor_operation_key: { actor, operation, key } },
    data: { reply: (reply ?? null) as Prisma.InputJsonValue },
  });
}

/** Forgets keys older than a week, except those that are kept for ever. */
export async function forgetOldKeys(tx: Tx, now: Date): Promise<number> {
  const { count } = await tx.db.idempotencyKey.deleteMany({
    where: { forEver: false, recordedAt: { lt: new Date(now.getTime() - 7 * 86_400_000) } },
  });
  return count;
}
