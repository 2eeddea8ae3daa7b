// The words that the agreement of a job has now, by the text in force and what is known of the job.
import { renderAgreement } from '@backsight/domain/agreements/render';
import { mayBeClients } from '@backsight/domain/agreements/signers';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findJobForAgreement, type JobForAgreement } from '@backsight/store/agreements/job';
import { textInForce, type TextRow } from '@backsight/store/agreements/texts';
import type { Reader } from '@backsight/store/database';
import { writtenFor } from './writtenFor.ts';

export type Worded = { job: JobForAgreement; clients: JobForAgreement['parties']; text: TextRow; body: string };

/** The text of the job's kind; a firm without one for re-inspections uses the one for inspections. */
const textForJob = async (reader: Reader, { kind }: JobForAgreement, usual: TextRow | null, now: Date): Promise<TextRow | null> =>
  (kind === 'reinspection' ? await textInForce(reader, 'reinspection', now) : null) ?? usual;

/** Warns where the firm has not taken up the rules of the property's state. Refuses: no text in force, an unknown or still empty placeholder, no client, a client who is a minor. */
export async function agreementWords(reader: Reader, jobId: string, now: Date): Promise<Outcome<Worded>> {
  const [job, usual] = await Promise.all([findJobForAgreement(reader, jobId), textInForce(reader, 'inspection', now)]);
  if (!job) return refuse('not-found', { thing: 'job' });
  const clients = job.parties.filter(({ role }) => role === 'client');
  const allowed = mayBeClients(clients);
  if (!allowed.ok) return allowed;
  const text = await textForJob(reader, job, usual, now);
  if (!text) return refuse('no-agreement-text');
  const written = await writtenFor(reader, job, text, now);
  const rendered = renderAgreement({ body: written.template, reviewed: text.attorney !== null }, written.facts);
  return rendered.ok ? accept({ job, clients, text, body: rendered.value }, written.warnings) : rendered;
}
