// What the office reads about agreements, texts and the gate.
import type { Reader } from '@backsight/store/database';
import { countAgreements, listTexts, newestAgreement, signersOf, type TextRow } from '@backsight/store/agreements';
import { findVisitForGate } from '@backsight/store/agreements/job';
import { gateOf, type GateNow } from './steps/gate.ts';

const iso = (at: Date | null): string | null => at?.toISOString() ?? null;
const shownText = (t: TextRow) => ({ ...t, inForceFrom: iso(t.inForceFrom), recordedAt: t.recordedAt.toISOString() });

export const readTexts = async (reader: Reader) => (await listTexts(reader)).map(shownText);

/** The newest agreement of a job with its signers, or null. */
export async function readAgreement(reader: Reader, jobId: string) {
  const agreement = await newestAgreement(reader, jobId);
  if (!agreement) return null;
  const { textId: _, issuedAt, ...rest } = agreement;
  const signers = (await signersOf(reader, agreement.id)).map(({ agreementId: _id, jobId: _job, tokenEndsAt, sentAt, ...s }) => ({
    ...s,
    linkEndsAt: tokenEndsAt.toISOString(),
    sentAt: iso(sentAt),
  }));
  return { ...rest, issuedAt: issuedAt.toISOString(), issues: await countAgreements(reader, jobId), signers };
}

/** The gate of a visit, or null when there is no such visit. */
export const readGate = async (reader: Reader, visitId: string): Promise<GateNow | null> =>
  (await findVisitForGate(reader, visitId)) ? gateOf(reader, visitId) : null;
