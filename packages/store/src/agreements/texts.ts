// Agreement texts: drafts, what is in force, and what an owner went on with although a rule of a state says otherwise.
import { readClauses, readLimits } from '@backsight/domain/agreements/stored';
import type { Clause, TextContent, TextKind, TextLimits } from '@backsight/domain/agreements/text';
import type { TextState } from '@backsight/domain/agreements/textLife';
import type { Prisma } from '../generated/client.ts';
import { dayIn, execute, type Reader, type Tx } from '../database.ts';

export type TextRow = {
  id: string;
  number: number;
  kind: TextKind;
  state: TextState;
  title: string;
  clauses: Clause[];
  limits: TextLimits;
  consentText: string;
  reason: string;
  basedOnId: string | null;
  authorId: string | null;
  author: string | null;
  approver: string | null;
  approvedAt: Date | null;
  inForceFrom: Date | null;
  withdrawnAt: Date | null;
  attorney: string | null;
  attorneyOn: string | null;
  /** Keys of the clauses that may not be reworded without a new review. */
  locked: string[];
  version: number;
  recordedAt: Date;
};

const TEXT = `SELECT t.id::text AS id, t.number, t.kind, t.state, t.title, t.clauses, t.limits, t.consent_text AS "consentText", t.reason, t.based_on_id::text AS "basedOnId", t.author_id::text AS "authorId",
  (SELECT name FROM person WHERE id = t.author_id) AS author, (SELECT name FROM person WHERE id = t.approver_id) AS approver, t.approved_at AS "approvedAt", t.in_force_from AS "inForceFrom",
  t.withdrawn_at AS "withdrawnAt", t.attorney, t.attorney_on::text AS "attorneyOn", t.locked, t.version, t.recorded_at AS "recordedAt" FROM agreement_text t`;

const read = (row: TextRow): TextRow => ({ ...row, clauses: readClauses(row.clauses), limits: readLimits(row.limits) });

/** Newest first. */
export const listTexts = async (reader: Reader): Promise<TextRow[]> =>
  (await reader.rows<TextRow>(`${TEXT} ORDER BY t.number DESC`)).map(read);
export async function findText(reader: Reader, id: string): Promise<TextRow | null> {
  const [row] = await reader.rows<TextRow>(`${TEXT} WHERE t.id = $1::uuid`, [id]);
  return row ? read(row) : null;
}

/** The text of a kind in force at an instant: the one that came into force last and was not withdrawn by then. */
export async function textInForce(reader: Reader, kind: TextKind, at: Date): Promise<TextRow | null> {
  const [row] = await reader.rows<TextRow>(
    `${TEXT} WHERE t.kind = $1 AND t.in_force_from <= $2::timestamptz AND (t.withdrawn_at IS NULL OR t.withdrawn_at > $2::timestamptz) ORDER BY t.in_force_from DESC, t.number DESC LIMIT 1`,
    [kind, at.toISOString()],
  );
  return row ? read(row) : null;
}

const json = (value: unknown) => value as Prisma.InputJsonValue;
const columns = ({ title, consentText, clauses, limits }: TextContent) => ({
  title,
  consentText,
  clauses: json(clauses),
  limits: json(limits),
});

export type NewDraft = TextContent & { id: string; kind: TextKind; reason: string; basedOnId: string | null; authorId: string; at: Date };

/** Answers the number of the draft. Two drafts of one kind are told apart by the constraint text_draft_exists. */
export async function addTextDraft(tx: Tx, { id, kind, reason, basedOnId, authorId, at, ...content }: NewDraft): Promise<number> {
  const number = ((await tx.db.agreementText.aggregate({ _max: { number: true } }))._max.number ?? 0) + 1;
  await tx.db.agreementText.create({
    data: { id, number, kind, state: 'draft', reason, basedOnId, authorId, recordedAt: at, inForceFrom: null, ...columns(content) },
  });
  return number;
}

/** Answers false when somebody else changed it since. */
export const saveTextDraft = async (
  tx: Tx,
  id: string,
  version: number,
  content: TextContent & { reason: string; authorId: string },
): Promise<boolean> =>
  (
    await tx.db.agreementText.updateMany({
      where: { id, version, state: 'draft' },
      data: { ...columns(content), reason: content.reason, authorId: content.authorId, version: version + 1 },
    })
  ).count === 1;

export const deleteTextDraft = async (tx: Tx, id: string, version: number): Promise<boolean> =>
  (await tx.db.agreementText.deleteMany({ where: { id, version, state: 'draft' } })).count === 1;

export const approveTextRow = async (
  tx: Tx,
  { id, version }: { id: string; version: number },
  by: { approverId: string; approvedAt: Date; inForceFrom: Date; locked: string[]; attorney: string | null; attorneyOn: Date | null },
): Promise<boolean> =>
  (
    await tx.db.agreementText.updateMany({
      where: { id, version, state: 'draft' },
      data: { ...by, state: 'approved', version: version + 1 },
    })
  ).count === 1;

export const withdrawTextRow = async (tx: Tx, id: string, at: Date): Promise<boolean> =>
  (await tx.db.agreementText.updateMany({ where: { id, state: 'approved' }, data: { state: 'withdrawn', withdrawnAt: at } })).count === 1;

/** Answers false when a review is on file already. */
export const saveReview = async (tx: Tx, id: string, review: { attorney: string; on: string; locked: string[] }): Promise<boolean> =>
  (
    await tx.db.agreementText.updateMany({
      where: { id, attorney: null },
      data: { attorney: review.attorney, attorneyOn: dayIn(review.on), locked: review.locked },
    })
  ).count === 1;

/** Keeps two changes of texts apart. */
export const lockTexts = (tx: Tx): Promise<void> => execute(tx, `SELECT pg_advisory_xact_lock(hashtextextended('agreement texts', 0))`);

export type NewSetAside = {
  id: string;
  packId: string;
  rowKey: string;
  thingKind: 'agreement-text' | 'remedy';
  thingId: string;
  sentence: string;
  reason: string;
  actorId: string;
};
export const saveSetAside = async (tx: Tx, rows: readonly NewSetAside[], at: Date): Promise<void> =>
  tx.db.ruleSetAside.createMany({ data: rows.map((row) => ({ ...row, happenedAt: at, recordedAt: at })) });

export type SetAsideRow = {
  id: string;
  rowKey: string;
  jurisdiction: string;
  sentence: string;
  reason: string;
  by: string;
  happenedAt: Date;
};
export const setAsideFor = (reader: Reader, thingId: string): Promise<SetAsideRow[]> =>
  reader.rows<SetAsideRow>(
    `SELECT s.id::text AS id, s.row_key AS "rowKey", k.jurisdiction, s.sentence, s.reason, p.name AS by, s.happened_at AS "happenedAt" FROM rule_set_aside s JOIN rule_pack k ON k.id = s.pack_id
       JOIN person p ON p.id = s.actor_id WHERE s.thing_id = $1::uuid ORDER BY s.row_key`,
    [thingId],
  );
