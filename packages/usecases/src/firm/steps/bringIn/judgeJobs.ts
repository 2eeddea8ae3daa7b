// Jobs done before: their services and people by name, their clients and properties on file or new, and none that is on file already.
import { readSeveral, short } from '@backsight/domain/firm/records/cells';
import { jobDaysOf, knownPeople, knownServices, type KnownPerson, type KnownService } from '@backsight/store/firm/records';
import type { JobDraft } from './drafts.ts';
import { partiesOf } from './judgeParties.ts';
import { housesOf } from './judgeProperties.ts';
import { low } from './known.ts';
import type { Line } from './line.ts';
import type { Context, NewJob, NewParty, NewProperty } from './prepared.ts';

type Judged = { jobs: NewJob[]; parties: NewParty[]; properties: NewProperty[] };
type Drafted = { draft: JobDraft; line: Line };

/** The jobs that are new, with the clients and properties that come along with them. */
export async function judgeJobs(context: Context, drafts: readonly Drafted[]): Promise<Judged> {
  const houses = await housesOf(
    context,
    drafts.map(({ draft }) => draft.property),
  );
  const parties = await partiesOf(
    context,
    drafts.map(({ draft }) => draft.party),
  );
  const named = { people: peopleBy(await knownPeople(context.reader)), services: servicesBy(await knownServices(context.reader)) };
  const days = new Map(
    (await jobDaysOf(context.reader, houses.onFile)).map(({ propertyId, day, number }) => [`${propertyId}|${day}`, `job ${number}`]),
  );
  const busy = new Map<string, number>();
  const jobs: NewJob[] = [];
  for (const [at, { draft, line }] of drafts.entries()) {
    if (at % 1000 === 999) await context.tell('comparing', at + 1, drafts.length);
    const services = servicesOf(draft, line, named.services);
    const people = peopleOf(draft, line, named.people);
    if (!line.goes()) continue;
    const propertyId = await houses.idOf(draft.property, line, false);
    if (propertyId === null) continue;
    const same = days.get(`${propertyId}|${draft.day}`);
    if (same !== undefined) {
      line.known(`There is ${same} at this address on this day already.`);
      continue;
    }
    days.set(`${propertyId}|${draft.day}`, `line ${draft.line}`);
    lookAtDays(draft, people, line, busy);
    const { day, minute, cents, deliveredOn, reference, property } = draft;
    const ids = people.map(({ id }) => id);
    jobs.push({
      id: context.newId(),
      day,
      minute,
      propertyId,
      partyId: parties.idOf(draft.party, line, false),
      services,
      cents,
      people: ids,
      deliveredOn,
      reference,
      facts: property.facts,
    });
  }
  return { jobs, parties: parties.fresh, properties: houses.fresh };
}

/** Somebody twice on one day, or before their first day, may well be right: it is said, and nothing is stopped. */
function lookAtDays({ day, line: at }: JobDraft, people: readonly KnownPerson[], line: Line, busy: Map<string, number>): void {
  for (const { id, name, startedOn, endedOn } of people) {
    const before = busy.get(`${id}|${day}`);
    if (before !== undefined) line.look('first', `${name} has another job on this day, in line ${before}.`);
    busy.set(`${id}|${day}`, at);
    if (day < startedOn) line.look('first', `${name} works here since ${startedOn} only, as the file of people says.`);
    if (endedOn !== null && day > endedOn) line.look('first', `${name} left on ${endedOn}, as the file of people says.`);
  }
}

type ByName<T> = (said: string) => T[];

/** By name, "Last, First" or e-mail address. */
function peopleBy(people: readonly KnownPerson[]): ByName<KnownPerson> {
  const by = new Map<string, KnownPerson[]>();
  const file = (key: string, one: KnownPerson) => by.set(key, [...(by.get(key) ?? []), one]);
  for (const one of people) {
    file(low(one.name), one);
    file(low(one.email), one);
    const words = one.name.trim().split(/\s+/);
    if (words.length > 1) file(low(`${words.at(-1)}, ${words.slice(0, -1).join(' ')}`), one);
  }
  return (said) => by.get(low(said)) ?? [];
}

function peopleOf(draft: JobDraft, line: Line, find: ByName<KnownPerson>): KnownPerson[] {
  const said = draft.people.flatMap((cell) => (find(cell).length > 0 ? [cell] : severalPeople(cell, find)));
  const people = said.flatMap((one) => {
    const found = find(one);
    if (found.length === 0)
      line.stop(
        'first',
        `Nobody here is called "${short(one)}". Bring the people in first, those who left too, or write the name as it is on file.`,
      );
    if (found.length > 1) line.stop('first', `Several people are called "${short(one)}". Write the e-mail address instead.`);
    return found.slice(0, 1);
  });
  const once = [...new Set(people)];
  if (once.length > 2) line.stop('first', `A job has two inspectors at most, and here are ${once.length}.`);
  if (once.length < people.length && line.goes()) line.look('second', 'The same inspector stands here twice, and is taken once.');
  return once;
}

/** Both of a pair in one cell; commas part them only where that finds people. */
const severalPeople = (cell: string, find: ByName<KnownPerson>): string[] => {
  const parts = readSeveral(cell);
  const byComma = cell.split(',').map((one) => one.trim());
  return parts.length === 1 && byComma.length > 1 && byComma.every((one) => find(one).length > 0) ? byComma : parts;
};

function servicesBy(services: readonly KnownService[]): { find: (said: string) => string | null; base: string | null; names: string } {
  const by = new Map<string, string>();
  for (const { key, name } of services) for (const said of [key, key.replaceAll('_', ' '), name]) by.set(low(said), key);
  for (const { key, words } of services) for (const said of words) if (!by.has(low(said))) by.set(low(said), key);
  return {
    find: (said) => by.get(low(said)) ?? by.get(low(said.replace(/(?<!\s)\s+(?:inspection|test|testing)$/i, ''))) ?? null,
    base: services.find(({ base }) => base)?.key ?? null,
    names: services.map(({ name }) => name).join(', '),
  };
}

/** The services that are named; the inspection alone where none is. */
function servicesOf(draft: JobDraft, line: Line, { find, base, names }: ReturnType<typeof servicesBy>): string[] {
  const cell = draft.services[0] ?? '';
  if (cell === '') return base === null ? [] : [base];
  const whole = find(cell);
  const keys = (whole === null ? readSeveral(cell.replaceAll(',', ';')) : [cell]).flatMap((one) => {
    const key = find(one);
    if (key === null) line.stop('services', `There is no service "${short(one)}". There are: ${names}.`);
    return key === null ? [] : [key];
  });
  return [...new Set(keys)];
}
