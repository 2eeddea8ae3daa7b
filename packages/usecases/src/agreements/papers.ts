// The agreement as a file, and what a fingerprint belongs to.
import { DateTime } from 'luxon';
import type { PdfFile } from '@backsight/documents/pdf/content';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findAgreement, type AgreementRow } from '@backsight/store/agreements';
import { isOnJob } from '@backsight/store/agreements/job';
import { findFingerprint, findSealedPaper } from '@backsight/store/agreements/sealed';
import type { Reader } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';
import type { Actor } from '../run.ts';
import { agreementPdf } from './steps/agreementPaper.ts';

/** The sealed paper where there is one, else the agreement as it was issued. */
async function paperOf(reader: Reader, agreement: AgreementRow): Promise<PdfFile> {
  const sealed = await findSealedPaper(reader, { agreementId: agreement.id });
  if (sealed) return { bytes: sealed.content, name: sealed.name };
  return { bytes: await agreementPdf(reader, agreement, null), name: `agreement-job-${agreement.jobNumber}.pdf` };
}

/** For the office and the lead inspector, and for whoever is on a visit of the job. */
export async function agreementPaper(reader: Reader, { id, actor }: { id: string; actor: Actor }): Promise<Outcome<PdfFile>> {
  const agreement = await findAgreement(reader, id);
  if (!agreement || actor.kind !== 'person') return refuse('not-found', { thing: 'agreement' });
  const may = actor.roles.some((role) => role !== 'inspector') || (await isOnJob(reader, agreement.jobId, actor.id));
  return may ? accept(await paperOf(reader, agreement)) : refuse('not-allowed');
}

/** Kind and day of the paper with this SHA-256; says nothing about anybody. */
export async function lookUpFingerprint(reader: Reader, sha256: string) {
  const [found, firm] = [await findFingerprint(reader, sha256), await findFirm(reader)];
  if (!found) return { known: false, kind: null, day: null, superseded: false };
  const day = DateTime.fromJSDate(found.at, { zone: firm?.zone ?? 'UTC' }).toISODate();
  return { known: true, kind: found.kind, day, superseded: found.superseded };
}
