// What is wrong with an agreement text in itself, whatever the state: checked before it is kept.
import { fieldsIn } from '../shared/fill.ts';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import { checkRule } from '../shared/rule-check.ts';
import { PLACEHOLDERS } from './render.ts';
import type { Clause, TextContent } from './text.ts';

const known = (name: string): boolean => Object.hasOwn(PLACEHOLDERS, name);

/** Client papers cite the published standard alone: a book of the firm that they took in would become the yardstick of its work. */
const OWN_BOOK = /\b(procedure book|book of procedures|(?:our|the firm's|own|internal) (?:written )?procedures)\b/i;

/** Every field that the clauses use, each once. */
export const fieldsOf = (clauses: readonly Clause[]): string[] => [...new Set(clauses.flatMap(({ body }) => fieldsIn(body)))];

function checkClause(clause: Clause, at: number, services: readonly string[]): Outcome<null> {
  const path = (name: string): string => `clauses.${at}.${name}`;
  const named = { clause: clause.title || clause.key };
  if (clause.body.trim() === '') return refuse('clause-empty', named, path('body'));
  if (fieldsIn(clause.title).length > 0) return refuse('clause-title-field', named, path('title'));
  const unknown = fieldsIn(clause.body).filter((name) => !known(name));
  if (unknown.length > 0) return refuse('text-field-unknown', { ...named, names: unknown.map((name) => `{{${name}}}`) }, path('body'));
  if (/\{\{|\}\}/.test(clause.body.replaceAll(/\{\{[^{}]*\}\}/g, ''))) return refuse('text-field-open', named, path('body'));
  if (OWN_BOOK.test(clause.body)) return refuse('text-cites-own-book', named, path('body'));
  const [problem] = checkRule(clause.applies, services);
  return problem ? refuse('clause-rule-wrong', { ...named, problem }, path('applies')) : accept(null);
}

/** A limit that no clause says binds nobody, and a clause cannot say a limit that is not set. */
function limitsSaid({ clauses, limits }: TextContent): Outcome<null> {
  const fields = fieldsOf(clauses);
  for (const [field, set, about] of [
    ['liability_cap', limits.cap.kind !== 'none', 'cap'],
    ['claim_limit', limits.claimMonths !== null, 'claimMonths'],
  ] as const) {
    if (fields.includes(field) && !set) return refuse('limit-not-set', { field: `{{${field}}}` }, `limits.${about}`);
    if (!fields.includes(field) && set) return refuse('limit-not-said', { field: `{{${field}}}` }, `limits.${about}`);
  }
  return accept(null);
}

/** `services` are the keys of the firm's services. The field of a refusal names the clause by its place. */
export function checkText(text: TextContent, services: readonly string[]): Outcome<null> {
  if (text.clauses.length === 0) return refuse('text-without-clauses', {}, 'clauses');
  for (const [at, clause] of text.clauses.entries()) {
    if (text.clauses.findIndex(({ key }) => key === clause.key) !== at)
      return refuse('clause-key-twice', { key: clause.key }, `clauses.${at}.key`);
    const sound = checkClause(clause, at, services);
    if (!sound.ok) return sound;
  }
  return limitsSaid(text);
}
