// The firm's wordings of its mail: every kind with its fields and history, a look at one with a real job, a new wording, and back to the built-in one.
import { mayUnlock, mayWord, writeLetter, type Review, type Values, type Words } from '@backsight/domain/mail/letter';
import { MAIL_KINDS, TEMPLATES, type MailKind, type Template } from '@backsight/domain/mail/templates';
import { mailHtml } from '@backsight/domain/mail/html';
import { appointmentInWords } from '@backsight/domain/agreements/facts';
import { comesWords } from '@backsight/domain/agreements/notices';
import { formatUsd } from '@backsight/domain/shared/money';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findJobForAgreement, type JobForAgreement } from '@backsight/store/agreements/job';
import type { Reader } from '@backsight/store/database';
import { findWording, listWordings, reviewOfWording, saveWording } from '@backsight/store/mail/wording';
import { reviewWas } from '../agreements/steps/reviewDay.ts';
import { FIRM_THING } from '../firm/steps/localDay.ts';
import type { Act, Work } from '../run.ts';

/** Every kind with the wording that counts now, its fields, and each wording that ever was. */
export async function readWordings(reader: Reader) {
  const rows = await listWordings(reader);
  return MAIL_KINDS.map((kind) => {
    const { title, subject, body, fields, optional, must }: Template = TEMPLATES[kind];
    const history = rows.filter((row) => row.kind === kind).map((row) => ({ ...row, recordedAt: row.recordedAt.toISOString() }));
    const own = history[0]?.body ? history[0] : null;
    return {
      kind,
      title,
      subject: own?.subject ?? subject,
      body: own?.body ?? body,
      builtIn: own === null,
      review: history[0]?.attorney && history[0].attorneyOn ? { attorney: history[0].attorney, on: history[0].attorneyOn } : null,
      fields: Object.entries(fields).map(([name, about]) => ({
        name,
        about,
        optional: optional.includes(name),
        must: must.includes(name),
      })),
      history: history.map(({ kind: _, ...row }) => row),
    };
  });
}

type Input = { kind: MailKind } & Words;
type Reviewed = { review: Review | null };

/** `review`: who reviewed the new words; they are then locked. Refusals: mail-unknown-field, mail-field-missing, mail-wording-locked, approval-ahead. */
export const changeWording: Act<Input & Reviewed, { id: string }> = {
  operation: 'mail.word',
  run: async (work, { kind, review, ...words }) => {
    const may = mayWord(kind, words);
    return may.ok ? keep(work, kind, words, review) : may;
  },
};

/** The built-in wording carries no review. Refusals: mail-wording-built-in, mail-wording-locked. */
export const resetWording: Act<{ kind: MailKind } & Reviewed, { id: string }> = {
  operation: 'mail.word-as-built-in',
  run: async (work, { kind, review }) =>
    (await findWording(work.tx, kind)) ? keep(work, kind, { subject: null, body: null }, review) : refuse('mail-wording-built-in'),
};

type Kept = { subject: string | null; body: string | null };

async function keep(work: Work, kind: MailKind, words: Kept, review: Review | null): Promise<Outcome<{ id: string }>> {
  if (work.actor.kind !== 'person') return refuse('not-allowed');
  const may = mayUnlock(await reviewOfWording(work.tx, kind), { isOwner: work.actor.roles.includes('owner'), review });
  if (!may.ok) return may;
  const was = review ? await reviewWas(work, review.on) : accept(null);
  if (!was.ok) return was;
  const id = work.newId();
  const mark = words.body === null ? null : review;
  await saveWording(work.tx, {
    ...{ id, kind, ...words, attorney: mark?.attorney ?? null, attorneyOn: mark?.on ?? null },
    ...{ recordedBy: work.actor.id, recordedAt: work.now },
  });
  await work.did('firm', FIRM_THING, { mailWording: kind, builtIn: words.body === null, reviewed: review !== null });
  return accept({ id });
}

/** How a wording would read for a job; what that job does not know stands in brackets. */
export async function previewWording(reader: Reader, input: Input & { jobId: string }): Promise<Outcome<Words & { html: string }>> {
  const job = await findJobForAgreement(reader, input.jobId);
  if (!job) return refuse('not-found', { thing: 'job' }, 'jobId');
  const { fields }: Template = TEMPLATES[input.kind];
  const known = valuesOf(job);
  const values = Object.fromEntries(Object.entries(fields).map(([name, about]) => [name, known[name] || `(${about})`]));
  const may = mayWord(input.kind, input);
  if (!may.ok) return may;
  const written = writeLetter(input.kind, input, values);
  return written.ok ? accept({ ...written.value, html: mailHtml(written.value.subject, written.value.body) }) : written;
}

function valuesOf(job: JobForAgreement): Values {
  const client = job.parties.find(({ role }) => role === 'client');
  return {
    name: client?.name,
    firm: job.firm,
    firm_phone: job.firmPhone,
    address: job.address,
    job: String(job.number),
    what: job.kind.replaceAll('_', ' '),
    appointment: job.visit ? appointmentInWords(job.visit, job.zone) : undefined,
    coming: job.visit ? comesWords(job.visit.pair.map(({ name }) => name)) : undefined,
    amount: formatUsd(job.feeCents),
    open: formatUsd(job.feeCents),
  };
}
