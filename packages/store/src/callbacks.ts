// Callbacks: the current row, its events, and what hangs on it.
import type { Circumstance, ErrorKind } from '@backsight/domain/callbacks/causes';
import type { ClearanceKind, Kind, RemedyState, Speaker, State } from '@backsight/domain/callbacks/words';
import type { Prisma } from './generated/client.ts';
import { dayIn, type Reader, type Tx } from './database.ts';

export type CallbackRow = {
  id: string;
  number: number;
  jobId: string;
  partyId: string | null;
  speaker: Speaker;
  kind: Kind;
  state: State;
  safety: boolean;
  system: string;
  place: string;
  remedySought: string;
  receivedAt: Date;
  discoveredOn: string | null;
  servedOn: string | null;
  serviceWay: string | null;
  deadlineOn: string | null;
  binding: boolean;
  policyId: string | null;
  textId: string;
  ownerOnly: boolean;
  version: number;
  duplicateOfId: string | null;
  repeatOfId: string | null;
};

const CALLBACK = `SELECT c.id::text AS id, c.number, c.job_id::text AS "jobId", c.party_id::text AS "partyId", c.speaker, c.kind, c.state, c.safety, c.system, c.place, c.remedy_sought AS "remedySought",
  c.received_at AS "receivedAt", c.discovered_on::text AS "discoveredOn", c.served_on::text AS "servedOn", c.service_way AS "serviceWay", c.deadline_on::text AS "deadlineOn", c.binding,
  c.policy_id::text AS "policyId", c.text_id::text AS "textId", c.owner_only AS "ownerOnly", c.version,
  c.duplicate_of::text AS "duplicateOfId", c.repeat_of::text AS "repeatOfId" FROM callback c`;

export const findCallback = async (reader: Reader, id: string): Promise<CallbackRow | null> =>
  (await reader.rows<CallbackRow>(`${CALLBACK} WHERE c.id = $1::uuid`, [id]))[0] ?? null;

/** The row, locked until the transaction ends: acts on one callback follow each other. */
export const lockCallback = async (tx: Tx, id: string): Promise<CallbackRow | null> =>
  (await tx.rows<CallbackRow>(`${CALLBACK} WHERE c.id = $1::uuid FOR UPDATE`, [id]))[0] ?? null;

export type NewCallback = Omit<CallbackRow, 'state' | 'version'> & { recordedAt: Date };

/** Columns that later events change besides state and version. */
export type Changed = Partial<Pick<CallbackRow, 'kind' | 'safety' | 'duplicateOfId' | 'repeatOfId' | 'jobId' | 'binding' | 'policyId'>>;

/** Adds a callback as received. Constraints: callback_known, callback_legal_paper. */
export async function saveCallback(tx: Tx, c: NewCallback): Promise<void> {
  const day = (iso: string | null): Date | null => (iso === null ? null : dayIn(iso));
  await tx.db.callback.create({
    data: {
      ...c,
      state: 'received',
      version: 1,
      discoveredOn: day(c.discoveredOn),
      servedOn: day(c.servedOn),
      deadlineOn: day(c.deadlineOn),
    },
  });
}

export type NewEvent = {
  id: string;
  callbackId: string;
  seq: number;
  kind: string;
  state: State;
  details: Prisma.InputJsonValue;
  textId: string | null;
  actorId: string | null;
  at: Date;
};

/** Adds an event. Two at once meet in callback_event_callback_id_seq_key. */
export async function saveEvent(tx: Tx, { at, ...e }: NewEvent): Promise<void> {
  await tx.db.callbackEvent.create({ data: { ...e, happenedAt: at, recordedAt: at } });
}

/** Moves the row with its newest event. Constraints: duplicate_is_closed, duplicate_of_a_duplicate, link_of_another_property, decided_under_its_job. */
export async function setCallbackState(tx: Tx, id: string, state: State, version: number, changed: Changed = {}): Promise<void> {
  await tx.db.callback.update({ where: { id }, data: { state, version, ...changed } });
}

/** The days of a legal paper, as they are set by hand. */
export async function setPaper(tx: Tx, id: string, paper: { servedOn: string; serviceWay: string; deadlineOn: string }): Promise<void> {
  const { serviceWay } = paper;
  await tx.db.callback.update({
    where: { id },
    data: { serviceWay, servedOn: dayIn(paper.servedOn), deadlineOn: dayIn(paper.deadlineOn) },
  });
}

export type EventRow = {
  id: string;
  seq: number;
  kind: string;
  state: State;
  details: unknown;
  words: string | null;
  happenedAt: Date;
  actor: string | null;
};

/** Events in their order, with the words that belong to them (null when none, or erased). */
export const eventsOf = (reader: Reader, callbackId: string): Promise<EventRow[]> =>
  reader.rows<EventRow>(
    `SELECT e.id::text AS id, e.seq, e.kind, e.state, e.details, t.body AS words, e.happened_at AS "happenedAt", p.name AS actor
     FROM callback_event e LEFT JOIN kept_text t ON t.id = e.text_id LEFT JOIN person p ON p.id = e.actor_id WHERE e.callback_id = $1::uuid ORDER BY e.seq`,
    [callbackId],
  );

export const wordsOf = async (reader: Reader, textId: string): Promise<string | null> =>
  (await reader.rows<{ body: string | null }>('SELECT body FROM kept_text WHERE id = $1::uuid', [textId]))[0]?.body ?? null;

export type NewConclusion = {
  id: string;
  callbackId: string;
  cause: string;
  stepKey: string | null;
  revisionId: string | null;
  entryId: string | null;
  errorKind: string | null;
  permissionId: string | null;
  circumstances: string[];
  needsConfirmation: boolean;
  textId: string | null;
  actorId: string;
  at: Date;
};

/** Adds a conclusion. Constraints: conclusion_names_step, conclusion_error_of_step, conclusion_error_permitted. */
export async function saveConclusion(tx: Tx, { at, ...c }: NewConclusion): Promise<void> {
  await tx.db.conclusion.create({ data: { ...c, happenedAt: at, recordedAt: at } });
}

export type ConclusionRow = {
  id: string;
  cause: string;
  stepKey: string | null;
  stepTitle: string | null;
  revisionId: string | null;
  revisionNumber: number | null;
  procedureTitle: string | null;
  procedureId: string | null;
  entryId: string | null;
  words: string | null;
  errorKind: ErrorKind | null;
  circumstances: Circumstance[];
  needsConfirmation: boolean;
  /** Who stands behind it besides, and how; null as long as nobody does. */
  confirmedAt: Date | null;
  confirmedBy: string | null;
  confirmedWay: 'person' | 'outside' | null;
  confirmedWords: string | null;
  actorId: string;
  by: string;
  happenedAt: Date;
};

/** Conclusions, newest first: the first one counts. */
export const conclusionsOf = (reader: Reader, callbackId: string): Promise<ConclusionRow[]> =>
  reader.rows<ConclusionRow>(
    `SELECT c.id::text AS id, c.cause, c.step_key AS "stepKey", s.body->>'title' AS "stepTitle", c.revision_id::text AS "revisionId", r.number AS "revisionNumber", p.title AS "procedureTitle",
       p.id::text AS "procedureId", c.entry_id::text AS "entryId", t.body AS words, c.error_kind AS "errorKind", c.circumstances, c.needs_confirmation AS "needsConfirmation", f.happened_at AS "confirmedAt",
       fp.name AS "confirmedBy", f.way AS "confirmedWay", ft.body AS "confirmedWords", c.actor_id::text AS "actorId", w.name AS by, c.happened_at AS "happenedAt"
     FROM conclusion c JOIN person w ON w.id = c.actor_id LEFT JOIN conclusion_confirmation f ON f.conclusion_id = c.id LEFT JOIN person fp ON fp.id = f.actor_id LEFT JOIN kept_text ft ON ft.id = f.text_id
       LEFT JOIN kept_text t ON t.id = c.text_id LEFT JOIN procedure_revision r ON r.id = c.revision_id LEFT JOIN procedure p ON p.id = r.procedure_id
       LEFT JOIN revision_step s ON s.revision_id = c.revision_id AND s.step_key = c.step_key
     WHERE c.callback_id = $1::uuid ORDER BY c.happened_at DESC, c.id DESC`,
    [callbackId],
  );

export type RemedyRow = {
  id: string;
  callbackId: string;
  kind: string;
  state: RemedyState;
  cents: number;
  payee: string;
  words: string | null;
  proposedBy: string;
  proposer: string;
  /** Counts its amounts: each is approved anew. */
  round: number;
  estimateId: string | null;
  /** Nothing is paid before the settlement release is signed. */
  waitsForRelease: boolean;
  recordedAt: Date;
};

const REMEDY = `SELECT r.id::text AS id, r.callback_id::text AS "callbackId", r.kind, r.state, r.cents, r.payee, t.body AS words, r.proposed_by::text AS "proposedBy", p.name AS proposer, r.round, r.estimate_id::text AS "estimateId", r.waits_for_release AS "waitsForRelease", r.recorded_at AS "recordedAt"
  FROM remedy r JOIN person p ON p.id = r.proposed_by LEFT JOIN kept_text t ON t.id = r.text_id`;

export const remediesOf = (reader: Reader, callbackId: string): Promise<RemedyRow[]> =>
  reader.rows<RemedyRow>(`${REMEDY} WHERE r.callback_id = $1::uuid ORDER BY r.recorded_at, r.id`, [callbackId]);
export const findRemedy = async (reader: Reader, id: string): Promise<RemedyRow | null> =>
  (await reader.rows<RemedyRow>(`${REMEDY} WHERE r.id = $1::uuid`, [id]))[0] ?? null;

export type NewRemedy = {
  id: string;
  callbackId: string;
  kind: string;
  state: RemedyState;
  cents: number;
  payee: string;
  textId: string | null;
  proposedBy: string;
  estimateId: string | null;
  waitsForRelease: boolean;
  recordedAt: Date;
};
export const saveRemedy = (tx: Tx, r: NewRemedy): Promise<void> => tx.db.remedy.create({ data: r });
export const setRemedyState = (tx: Tx, id: string, state: RemedyState): Promise<void> =>
  tx.db.remedy.update({ where: { id }, data: { state } });
/** A new amount begins a new round of approval. */
export const setRemedyAmount = (
  tx: Tx,
  id: string,
  to: { cents: number; payee: string; round: number; state: RemedyState; proposedBy: string },
): Promise<void> => tx.db.remedy.update({ where: { id }, data: { ...to, estimateId: null } });

export type NewApproval = {
  id: string;
  remedyId: string;
  actorId: string;
  decision: string;
  limitCents: number | null;
  /** What was approved, with everything else that was agreed of the callback. */
  totalCents: number;
  onTheJob: boolean;
  round: number;
  /** Somebody outside the firm who decided; empty: the actor. */
  reviewer: string;
  textId: string | null;
  at: Date;
};
export async function saveApproval(tx: Tx, { at, ...a }: NewApproval): Promise<void> {
  await tx.db.remedyApproval.create({ data: { ...a, happenedAt: at, recordedAt: at } });
}

export type ApprovalRow = {
  remedyId: string;
  decision: string;
  by: string;
  onTheJob: boolean;
  round: number;
  reviewer: string;
  words: string | null;
  happenedAt: Date;
};
export const approvalsOf = (reader: Reader, callbackId: string): Promise<ApprovalRow[]> =>
  reader.rows<ApprovalRow>(
    `SELECT a.remedy_id::text AS "remedyId", a.decision, p.name AS by, a.on_the_job AS "onTheJob", a.round, a.reviewer, t.body AS words, a.happened_at AS "happenedAt"
     FROM remedy_approval a JOIN remedy r ON r.id = a.remedy_id JOIN person p ON p.id = a.actor_id LEFT JOIN kept_text t ON t.id = a.text_id WHERE r.callback_id = $1::uuid ORDER BY a.happened_at`,
    [callbackId],
  );

export type ClearanceRow = { id: string; kind: ClearanceKind; words: string | null; by: string; happenedAt: Date };
export const clearancesOf = (reader: Reader, callbackId: string): Promise<ClearanceRow[]> =>
  reader.rows<ClearanceRow>(
    `SELECT c.id::text AS id, c.kind, t.body AS words, p.name AS by, c.happened_at AS "happenedAt" FROM clearance c JOIN person p ON p.id = c.actor_id JOIN kept_text t ON t.id = c.text_id
     WHERE c.callback_id = $1::uuid ORDER BY c.happened_at`,
    [callbackId],
  );
export async function saveClearance(
  tx: Tx,
  { at, ...c }: { id: string; callbackId: string; kind: string; textId: string; actorId: string; at: Date },
): Promise<void> {
  await tx.db.clearance.create({ data: { ...c, happenedAt: at, recordedAt: at } });
}
