// Writes a mail from its wording, and says whether a wording of the firm's own will do.
import { fieldsIn, fill } from '../shared/fill.ts';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import { TEMPLATES, type MailKind, type Template } from './templates.ts';

export type Words = { subject: string; body: string };
export type Values = Readonly<Record<string, string | undefined>>;

const shown = (names: readonly string[]): string[] => names.map((name) => `{{${name}}}`);

/**
 * Subject and body with their values. Refusals: mail-unknown-field; mail-empty-field, where a field that must say something is empty.
 * The built-in wording is used where the firm has none of its own.
 */
export function writeLetter(kind: MailKind, own: Words | null, values: Values): Outcome<Words> {
  const { fields, optional, subject, body }: Template = TEMPLATES[kind];
  const ask = { known: Object.keys(fields), optional };
  const [head, text] = [fill(own?.subject ?? subject, ask, values), fill(own?.body ?? body, ask, values)];
  for (const [part, field] of [
    [head, 'subject'],
    [text, 'body'],
  ] as const) {
    if ('unknown' in part) return refuse('mail-unknown-field', { names: shown(part.unknown), known: shown(ask.known) }, field);
    if ('empty' in part) return refuse('mail-empty-field', { names: part.empty.map((name) => fields[name] ?? name) }, field);
  }
  return accept({ subject: (head as { text: string }).text, body: (text as { text: string }).text.replace(/(?<![ \t])[ \t]+$/gm, '') });
}

/** Whether the firm may write this kind of mail so. Refusals: mail-unknown-field, mail-field-missing. */
export function mayWord(kind: MailKind, own: Words): Outcome<null> {
  const { fields, must }: Template = TEMPLATES[kind];
  const tried = writeLetter(kind, own, Object.fromEntries(Object.keys(fields).map((name) => [name, 'x'])));
  if (!tried.ok) return tried;
  const missing = must.filter((name) => !fieldsIn(own.body).includes(name));
  return missing.length > 0 ? refuse('mail-field-missing', { names: shown(missing) }, 'body') : accept(null);
}

/** The attorney who reviewed words, and the day; words that were reviewed are locked. */
export type Review = { attorney: string; on: string };

/** Words that an attorney reviewed give way only to an owner who names a new review; so does the built-in wording after them. */
export const mayUnlock = (locked: Review | null, by: { isOwner: boolean; review: Review | null }): Outcome<null> =>
  (locked === null && by.review === null) || (by.isOwner && by.review !== null)
    ? accept(null)
    : refuse('mail-wording-locked', locked === null ? { attorney: 'nobody yet', on: 'never' } : { ...locked }, 'attorney');
