// Says an applies-when rule in plain English, wherever a rule is shown.
import type { Applicability } from './applicability.ts';
import { comparisonInWords, listed } from './phrases.ts';

type Names = Readonly<Record<string, string>>;
type Group = { join: 'and' | 'or'; parts: Phrase[] };
type Phrase = string | Group;

const MONTHS = ['January', 'February', 'March', 'April', 'May', 'June', 'July', 'August', 'September', 'October', 'November', 'December'];

const monthDay = (text: string): string => `${MONTHS[Number(text.slice(0, 2)) - 1] ?? text} ${Number(text.slice(3, 5))}`;

const wholeDay = (day: string): string => `${monthDay(day.slice(5))}, ${day.slice(0, 4)}`;

/** Names begin with a capital on lists; inside a sentence they do not, unless they are an abbreviation. */
const inSentence = (name: string): string => (/^[A-Z][a-z]/.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name);

const group = (join: 'and' | 'or', parts: Phrase[]): Phrase => {
  const flat = parts.flatMap((part) => (typeof part !== 'string' && part.join === join ? part.parts : [part]));
  if (flat.length === 0) return join === 'and' ? 'at every property' : 'at no property';
  return flat.length === 1 ? flat[0]! : { join, parts: flat };
};

/** "Not" is carried down to the single conditions (De Morgan), since nobody reads "not (a and b)" aloud. */
const phrase = (rule: Applicability, negated: boolean, names: Names): Phrase => {
  if ('always' in rule) return negated ? 'at no property' : 'at every property';
  if ('not' in rule) return phrase(rule.not, !negated, names);
  if ('all' in rule)
    return group(
      negated ? 'or' : 'and',
      rule.all.map((part) => phrase(part, negated, names)),
    );
  if ('any' in rule)
    return group(
      negated ? 'and' : 'or',
      rule.any.map((part) => phrase(part, negated, names)),
    );
  if ('fact' in rule) return comparisonInWords(rule, negated);
  if ('service' in rule) return `${inSentence(names[rule.service] ?? rule.service)} ${negated ? 'not ordered' : 'ordered'}`;
  if ('seasonFrom' in rule) return `${negated ? 'not ' : ''}from ${monthDay(rule.seasonFrom)} to ${monthDay(rule.seasonTo)}`;
  return negated ? `before ${wholeDay(rule.fromDay)}` : `from ${wholeDay(rule.fromDay)} on`;
};

const opening = ({ join, parts }: Group): string => (join === 'or' ? 'either ' : parts.length === 2 ? 'both ' : 'all of ');

/** Single conditions come before groups, and groups are set off by commas, so that "and" and "or" never run together. */
const say = (part: Phrase, depth: number): string => {
  if (typeof part === 'string') return part;
  const ordered = [...part.parts].sort((a, b) => Number(typeof a !== 'string') - Number(typeof b !== 'string'));
  const words = ordered.map((inner) => say(inner, depth + 1));
  const plain = ordered.every((inner) => typeof inner === 'string') && (part.join === 'and' || depth > 0);
  const text = plain ? listed(words, part.join) : `${words.slice(0, -1).join(', ')}, ${part.join} ${words.at(-1)}`;
  if (depth === 0) return text;
  return depth === 1 ? opening(part) + text : `(${opening(part)}${text})`;
};

/**
 * The rule as a phrase without a full stop: 'built 1978 or earlier and the foundation includes a crawl space'.
 * `serviceNames` maps keys of services to their names; a key without a name is shown as it is.
 */
export const inWords = (rule: Applicability, serviceNames: Names = {}): string => say(phrase(rule, false, serviceNames), 0);
