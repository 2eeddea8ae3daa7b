// Fills an agreement text with the facts of one job. Nothing unknown and nothing empty ever reaches a client.
import { fieldsIn, fill } from '../shared/fill.ts';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';

/** Every placeholder that a text may use, with what it stands for. */
export const PLACEHOLDERS = {
  firm: 'name of the firm',
  firm_phone: 'phone number of the firm',
  client: 'names of the clients',
  address: 'address of the property',
  appointment: 'day and time of the visit',
  services: 'what was ordered',
  pair: 'names and license numbers of the pair',
  fee: 'the fee',
  terms: 'when the fee is due',
  report_due: 'day by which the report is due',
  job: 'number of the job',
  notices: 'notices about outside providers, if any',
  state: 'state in which the property lies',
  standard: 'published standard of the state',
  claim_window: 'time to bring a claim, by the rules of the state',
  liability_cap: 'most that the firm pays, by the limit of this text',
  claim_limit: 'time to claim that this text sets',
  cancellation: 'what it costs to cancel or move, by the desk rules',
  no_access: 'what is charged when the pair cannot get in',
  items: 'items of a re-inspection, one to a line',
  first_job: 'number of the job that a re-inspection belongs to',
  amount: 'amount of a settlement release',
  payee: 'who is paid by a settlement release',
  callback: 'number of the callback that a settlement release ends',
} as const;
export type Placeholder = keyof typeof PLACEHOLDERS;
/** May be empty: it then leaves nothing behind. */
const OPTIONAL: readonly Placeholder[] = ['notices'];

export type AgreementFacts = Record<Placeholder, string>;

/** Stands on top of every agreement whose text no attorney has reviewed. */
export const NOT_REVIEWED = 'EXAMPLE THAT NO ATTORNEY HAS REVIEWED';

const isKnown = (name: string): name is Placeholder => Object.hasOwn(PLACEHOLDERS, name);

/** The placeholders that a text uses, each once, in the order of their first use. */
export const placeholdersIn = fieldsIn;

/**
 * The body that a client reads and signs. Values are put in as they are and never looked at for placeholders again.
 * Refuses placeholders that are unknown ('unknown-placeholder') or for which nothing is known yet ('empty-placeholder').
 */
export function renderAgreement(text: { body: string; reviewed: boolean }, facts: Partial<AgreementFacts>): Outcome<string> {
  const filled = fill(text.body, { known: Object.keys(PLACEHOLDERS), optional: OPTIONAL }, facts);
  if ('unknown' in filled) return refuse('unknown-placeholder', { names: filled.unknown.map((name) => `{{${name}}}`) });
  if ('empty' in filled) return refuse('empty-placeholder', { names: filled.empty.filter(isKnown).map((name) => PLACEHOLDERS[name]) });
  return accept(text.reviewed ? filled.text : `${NOT_REVIEWED}\n\n${filled.text}`);
}
