// In plain words: why something that a spreadsheet brought cannot be taken out any more.
import type { Depending } from '@backsight/store/firm/takeOut';

/** By the table that points at it; others are named as they are called inside. */
const WORDS: Readonly<Record<string, string>> = {
  changed: 'was changed since',
  job: 'is the place of another job',
  job_party: 'stands on another job',
  job_event: 'was changed since',
  callback: 'has a callback',
  inquiry: 'has a price that was asked',
  contact_note: 'has a note of a call or letter',
  report: 'has a report',
  agreement: 'has an agreement',
  invoice: 'has an invoice',
  assignment: 'goes or went on visits',
  session: 'has signed in',
  password_link: 'was invited',
  license: 'has a license on file',
  person_qualification: 'has a qualification on file',
  work_pattern: 'has working hours',
  absence: 'has an absence',
  person_size: 'has sizes on file',
  evidence_hold: 'is held as evidence',
  job_file: 'has a file for somebody who asked',
};

/** 'has a callback', for one line of the list. */
export const because = ({ because: table }: Depending): string => WORDS[table] ?? `is used elsewhere (${table.replaceAll('_', ' ')})`;

/** The first few, in one line. */
export function saidDepends(depends: readonly Depending[]): string {
  const first = depends.slice(0, 3).map((one) => `${one.record} ${because(one)}`);
  const more = depends.length - first.length;
  return `${first.join('; ')}${more > 0 ? `; and ${more} more` : ''}`;
}
