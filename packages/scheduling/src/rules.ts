// The hard rules about who may go, each one named function: used by the search and by the check of a chosen start.
import { sayDay } from './time.ts';
import type { Day } from './time.ts';
import { onTheMap } from './travel.ts';
import type { PairRule, PersonInput, Qualification, StartQuery } from './world.ts';

export type RuleCode =
  | 'base'
  | 'absent'
  | 'outside-hours'
  | 'overlap'
  | 'travel'
  | 'not-licensed'
  | 'not-qualified'
  | 'acknowledgement'
  | 'barred'
  | 'crew'
  | 'pair-rule'
  | 'kit'
  | 'daylight'
  | 'weather'
  | 'writing'
  | 'provider';

/** What a visit asks of each of its people, wherever and whenever it is. */
export type Need = Pick<StartQuery, 'crewSize' | 'needEach' | 'involves'>;

/** A rule that one person breaks on one day, whatever the hour and the partner. */
type PersonRule = {
  code: RuleCode;
  breaks: (person: PersonInput, need: Need, day: Day) => boolean;
  say: (person: PersonInput, need: Need, day: Day) => string;
};

/** Licensed on that day, both ends included. */
const isLicensed = (person: PersonInput, day: Day): boolean =>
  person.licensedUntil !== null && day <= person.licensedUntil && (person.licensedFrom === undefined || day >= person.licensedFrom);

const holds = (held: readonly Qualification[], key: string, day: Day): boolean =>
  held.some((one) => one.key === key && (one.until === null || day <= one.until));

/** Whether the rule pack lets this person in training be the second without the license. */
const isExempt = (person: PersonInput, key: string): boolean => person.trainee && (person.unlicensedSecond?.includes(key) ?? false);

/** The keys that the person does not hold on that day and is asked for. */
export const missingKeys = (person: PersonInput, keys: readonly string[], day: Day): readonly string[] =>
  keys.length === 0 ? keys : keys.filter((key) => !holds(person.qualifications, key, day) && !isExempt(person, key));

const openRevisions = (person: PersonInput, day: Day): string[] =>
  person.missingAcknowledgements.filter((one) => day > one.afterDay).map((one) => one.revision);

const based: PersonRule = {
  code: 'base',
  breaks: (person) => !onTheMap(person.base),
  say: (person) => `${person.name} has no home base on the map, so that no way can be counted.`,
};

const licensed: PersonRule = {
  code: 'not-licensed',
  breaks: (person, _query, day) => !isLicensed(person, day) && !(person.trainee && person.unlicensedSecond !== undefined),
  say: (person, _query, day) =>
    `${person.name} has no license valid on ${sayDay(day)}${person.trainee ? ' and may only come along as an observer' : ''}.`,
};

const qualified: PersonRule = {
  code: 'not-qualified',
  breaks: (person, query, day) => missingKeys(person, query.needEach, day).length > 0,
  say: (person, query, day) => `${person.name} does not hold on ${sayDay(day)}: ${missingKeys(person, query.needEach, day).join(', ')}.`,
};

const acknowledged: PersonRule = {
  code: 'acknowledgement',
  breaks: (person, _query, day) => openRevisions(person, day).length > 0,
  say: (person, _query, day) => `${person.name} has not acknowledged ${openRevisions(person, day).join(', ')}.`,
};

const notBarred: PersonRule = {
  code: 'barred',
  breaks: (person, query) => (query.involves ?? []).some((id) => person.barredFrom?.includes(id)),
  say: (person) => `${person.name} may not be sent to this property or these people.`,
};

const mayGoAlone: PersonRule = {
  code: 'crew',
  breaks: (person, query) => query.crewSize === 1 && person.trainee,
  say: (person) => `${person.name} is in training and does not go alone.`,
};

/** Those that depend on the person and the day alone, whatever is asked. */
const dayRules: readonly PersonRule[] = [based, licensed, acknowledged];
/** Those that depend on the question too. */
export const askedRules: readonly PersonRule[] = [qualified, notBarred, mayGoAlone];

/** Whether no rule keeps the person away all day, whatever is asked. */
export const ableOn = (person: PersonInput, query: StartQuery, day: Day): boolean =>
  dayRules.every((rule) => !rule.breaks(person, query, day));

/** In the order in which a person is told why not. */
export const personRules: readonly PersonRule[] = [based, licensed, qualified, acknowledged, notBarred, mayGoAlone];

/** May be the first of a pair; somebody in training never is. */
export const mayGoFirst = (person: PersonInput): boolean => person.mayLead && !person.trainee;

/** A pair needs somebody who may go first. */
export const nobodyGoesFirst = (a: PersonInput, b: PersonInput): boolean => !mayGoFirst(a) && !mayGoFirst(b);

const partnersTied = (rules: readonly PairRule[], id: string): string[] =>
  rules
    .filter((rule) => rule.kind === 'must_together' && (rule.a === id || rule.b === id))
    .map((rule) => (rule.a === id ? rule.b : rule.a));

const tiedElsewhere = (rules: readonly PairRule[], id: string, partner: string | null): boolean => {
  const tied = partnersTied(rules, id);
  return tied.length > 0 && (partner === null || !tied.includes(partner));
};

/** Never together, or tied to somebody else. `b` is null for a person who goes alone. */
export const pairRuleBroken = (rules: readonly PairRule[], a: string, b: string | null): boolean =>
  rules.some((rule) => rule.kind === 'never_together' && ((rule.a === a && rule.b === b) || (rule.a === b && rule.b === a))) ||
  tiedElsewhere(rules, a, b) ||
  (b !== null && tiedElsewhere(rules, b, a));

/** First and second of a pair: who may go first does, the smaller id when both may. */
export function inOrder(a: PersonInput, b: PersonInput): [PersonInput, PersonInput] {
  const [low, high] = a.id < b.id ? [a, b] : [b, a];
  return mayGoFirst(low) || !mayGoFirst(high) ? [low, high] : [high, low];
}
