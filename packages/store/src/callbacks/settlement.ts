// Offers to settle, notices to the insurer, and cases in court.
import type { CourtEnd, OfferEnd } from '@backsight/domain/callbacks/settlement';
import { dayIn, execute, type Reader, type Tx } from '../database.ts';

export type OfferRow = {
  id: string;
  remedyId: string;
  callbackId: string;
  cents: number;
  validUntil: string;
  by: string;
  recordedAt: Date;
  end: OfferEnd | null;
  endedAt: Date | null;
  words: string | null;
};

const OFFER = `SELECT o.id::text AS id, o.remedy_id::text AS "remedyId", r.callback_id::text AS "callbackId", o.cents, o.valid_until::text AS "validUntil", p.name AS by, o.recorded_at AS "recordedAt", e.kind AS end, e.recorded_at AS "endedAt", t.body AS words
  FROM settlement_offer o JOIN remedy r ON r.id = o.remedy_id JOIN person p ON p.id = o.recorded_by LEFT JOIN settlement_offer_end e ON e.offer_id = o.id LEFT JOIN kept_text t ON t.id = e.text_id`;

export const offersOf = (reader: Reader, callbackId: string): Promise<OfferRow[]> =>
  reader.rows<OfferRow>(`${OFFER} WHERE r.callback_id = $1::uuid ORDER BY o.recorded_at, o.id`, [callbackId]);
export const findOffer = async (reader: Reader, id: string): Promise<OfferRow | null> =>
  (await reader.rows<OfferRow>(`${OFFER} WHERE o.id = $1::uuid`, [id]))[0] ?? null;

/** Rule: payment_needs_clearance. */
export const saveOffer = (
  tx: Tx,
  { validUntil, ...o }: { id: string; remedyId: string; cents: number; validUntil: string; recordedBy: string; recordedAt: Date },
): Promise<void> => tx.db.settlementOffer.create({ data: { ...o, validUntil: dayIn(validUntil) } });

/** An offer ends once: settlement_offer_end_pkey. */
export const saveOfferEnd = (
  tx: Tx,
  end: { offerId: string; kind: OfferEnd; textId: string | null; actorId: string | null; recordedAt: Date },
): Promise<void> => tx.db.settlementOfferEnd.create({ data: end });

export const setWaitsForRelease = (tx: Tx, remedyId: string, waits: boolean): Promise<void> =>
  execute(tx, 'UPDATE remedy SET waits_for_release = $2::boolean WHERE id = $1::uuid', remedyId, waits);

export type NoticeRow = {
  id: string;
  policy: string | null;
  notifiedOn: string;
  way: string;
  reference: string;
  words: string | null;
  by: string;
  recordedAt: Date;
};
export const noticesOf = (reader: Reader, callbackId: string): Promise<NoticeRow[]> =>
  reader.rows<NoticeRow>(
    `SELECT n.id::text AS id, y.insurer || ' ' || y.number AS policy, n.notified_on::text AS "notifiedOn", n.way, n.reference, t.body AS words, p.name AS by, n.recorded_at AS "recordedAt"
     FROM insurer_notice n JOIN person p ON p.id = n.recorded_by JOIN kept_text t ON t.id = n.text_id LEFT JOIN insurance_policy y ON y.id = n.policy_id WHERE n.callback_id = $1::uuid ORDER BY n.notified_on, n.recorded_at`,
    [callbackId],
  );
export type NewNotice = {
  id: string;
  callbackId: string;
  remedyId: string | null;
  policyId: string | null;
  notifiedOn: string;
  way: string;
  reference: string;
  textId: string;
  recordedBy: string;
  recordedAt: Date;
};
export const saveNotice = (tx: Tx, n: NewNotice): Promise<void> =>
  tx.db.insurerNotice.create({ data: { ...n, notifiedOn: dayIn(n.notifiedOn) } });

export type CaseRow = {
  id: string;
  callbackId: string;
  court: string;
  reference: string;
  filedOn: string;
  answerDueOn: string | null;
  claimedCents: number;
  by: string;
  outcome: { kind: CourtEnd; decidedOn: string; owedCents: number; costsCents: number; words: string | null } | null;
  paidOwedCents: number;
  paidCostsCents: number;
};

/** What was paid on a case; entries that were taken back count no more. */
const paid = (what: string): string =>
  `coalesce((SELECT -sum(l.cents) FROM court_payment x JOIN ledger_line l ON l.entry_id = x.entry_id AND l.account = 'bank' WHERE x.case_id = c.id AND x.what = '${what}' AND NOT EXISTS (SELECT FROM ledger_entry v WHERE v.reverses_id = x.entry_id)), 0)::int`;
const CASE = `SELECT c.id::text AS id, c.callback_id::text AS "callbackId", c.court, c.reference, c.filed_on::text AS "filedOn", c.answer_due_on::text AS "answerDueOn", c.claimed_cents AS "claimedCents", p.name AS by,
  (SELECT jsonb_build_object('kind', o.kind, 'decidedOn', o.decided_on, 'owedCents', o.owed_cents, 'costsCents', o.costs_cents, 'words', t.body) FROM court_outcome o LEFT JOIN kept_text t ON t.id = o.text_id
    WHERE o.case_id = c.id ORDER BY o.recorded_at DESC, o.id DESC LIMIT 1) AS outcome, ${paid('owed')} AS "paidOwedCents", ${paid('costs')} AS "paidCostsCents"
  FROM court_case c JOIN person p ON p.id = c.recorded_by`;
export const casesOf = (reader: Reader, callbackId: string): Promise<CaseRow[]> =>
  reader.rows<CaseRow>(`${CASE} WHERE c.callback_id = $1::uuid ORDER BY c.filed_on, c.id`, [callbackId]);
export const findCase = async (reader: Reader, id: string): Promise<CaseRow | null> =>
  (await reader.rows<CaseRow>(`${CASE} WHERE c.id = $1::uuid`, [id]))[0] ?? null;

export type NewCase = {
  id: string;
  callbackId: string;
  court: string;
  reference: string;
  filedOn: string;
  answerDueOn: string | null;
  claimedCents: number;
  recordedBy: string;
  recordedAt: Date;
};
export const saveCase = (tx: Tx, c: NewCase): Promise<void> =>
  tx.db.courtCase.create({
    data: { ...c, filedOn: dayIn(c.filedOn), answerDueOn: c.answerDueOn === null ? null : dayIn(c.answerDueOn) },
  });
export type NewOutcome = {
  id: string;
  caseId: string;
  kind: CourtEnd;
  decidedOn: string;
  owedCents: number;
  costsCents: number;
  textId: string | null;
  recordedBy: string;
  recordedAt: Date;
};
/** Rule: court_outcome_known. */
export const saveOutcome = (tx: Tx, o: NewOutcome): Promise<void> =>
  tx.db.courtOutcome.create({ data: { ...o, decidedOn: dayIn(o.decidedOn) } });
export const saveCourtPayment = (tx: Tx, p: { entryId: string; caseId: string; what: 'owed' | 'costs' }): Promise<void> =>
  tx.db.courtPayment.create({ data: p });
