// What one row of a spreadsheet would become, before it is held against what is on file.
import { addressKey } from '@backsight/domain/jobs/address';
import {
  readCount,
  readDay,
  readEmail,
  readMoney,
  readPhone,
  readState,
  readText,
  readTime,
  readYesNo,
  readZip,
  readSeveral,
} from '@backsight/domain/firm/records/cells';
import { ROLES, type Role } from '@backsight/domain/people/roles';
import { FACTS, type PropertyFacts } from '@backsight/domain/shared/facts';
import type { Line, Mapped } from './line.ts';

export type PersonDraft = {
  line: number;
  name: string;
  email: string;
  phone: string;
  roles: Role[];
  trainee: boolean;
  home: string;
  town: string;
  zip: string | null;
  startedOn: string | null;
  endedOn: string | null;
};
export type PartyDraft = { line: number; name: string; email: string | null; phone: string | null };
export type PropertyDraft = {
  line: number;
  address: string;
  town: string;
  zip: string | null;
  state: string | null;
  key: string;
  facts: PropertyFacts;
};
export type JobDraft = {
  line: number;
  day: string;
  minute: number | null;
  property: PropertyDraft;
  party: PartyDraft;
  services: string[];
  cents: number | null;
  people: string[];
  deliveredOn: string | null;
  reference: string;
};

const text = (most: number) => (cell: string) => readText(cell, most);

/** One name, or a first and a last one. "Last, First" is turned round. */
function nameOf(line: Line, whole: string, first: string, last: string): string | null {
  const one = line.read(whole, text(200));
  if (one !== null) {
    const turned = /^([^,]+),\s*([^,]+)$/.exec(one);
    return turned && !/\b(?:llc|inc|jr|sr|ii|iii|trust|co|ltd)\b/i.test(turned[2]!) ? `${turned[2]} ${turned[1]}` : one;
  }
  const both = [line.read(first, text(60)), line.read(last, text(60))].filter((part) => part !== null).join(' ');
  if (both === '') line.stop(whole, 'The name is missing.');
  return both === '' ? null : both;
}

const ROLE_WORDS: readonly (readonly [RegExp, Role])[] = [
  [/^(?:owner|president|principal)$/, 'owner'],
  [/^(?:lead|lead inspector|senior inspector|chief inspector|lead_inspector)$/, 'lead_inspector'],
  [/^(?:office|office manager|manager|admin|administrator|scheduler|office_manager|coordinator)$/, 'office_manager'],
  [/^(?:inspector|home inspector|field|technician|trainee|apprentice)$/, 'inspector'],
];

function rolesOf(line: Line): Role[] {
  const said = readSeveral(line.raw('roles').replaceAll(',', ';'));
  const roles = said.flatMap((one) => {
    const role = ROLE_WORDS.find(([words]) => words.test(one.toLowerCase()))?.[1];
    if (!role) line.stop('roles', `"${one}" is none of what people do here: ${Object.values(ROLES).join(', ')}.`);
    return role ? [role] : [];
  });
  return roles.length === 0 ? ['inspector'] : [...new Set(roles)];
}

/** Null where something stops the row. */
export function personDraft(line: Line, { formats }: Mapped): PersonDraft | null {
  const day = (cell: string) => readDay(cell, formats.days);
  const draft = {
    line: line.line,
    name: nameOf(line, 'name', 'firstName', 'lastName') ?? '',
    email: line.need('email', readEmail) ?? '',
    phone: line.need('phone', readPhone) ?? '',
    roles: rolesOf(line),
    trainee: line.read('trainee', readYesNo) ?? false,
    home: line.read('home', text(200)) ?? '',
    town: line.read('town', text(100)) ?? '',
    zip: line.read('zip', readZip),
    startedOn: line.read('startedOn', day),
    endedOn: line.read('endedOn', day),
  };
  if (draft.startedOn !== null && draft.endedOn !== null && draft.endedOn < draft.startedOn)
    line.stop('endedOn', 'The last day lies before the first.');
  return line.goes() ? draft : null;
}

/** Null where something stops the row. */
export function partyDraft(
  line: Line,
  keys = { name: 'name', first: 'firstName', last: 'lastName', email: 'email', phone: 'phone' },
): PartyDraft | null {
  const draft = {
    line: line.line,
    name: nameOf(line, keys.name, keys.first, keys.last) ?? '',
    email: line.read(keys.email, readEmail),
    phone: line.read(keys.phone, readPhone),
  };
  return line.goes() ? draft : null;
}

const bounds = (key: 'yearBuilt' | 'livingArea', what: string) => ({ least: FACTS[key].min, most: FACTS[key].max, what });

/** Null where something stops the row. */
export function propertyDraft(line: Line): PropertyDraft | null {
  const address = line.need('address', text(200)) ?? '';
  const town = line.need('town', text(100)) ?? '';
  const yearBuilt = line.read('yearBuilt', (cell) => readCount(cell, bounds('yearBuilt', 'year')));
  const livingArea = line.read('livingArea', (cell) => readCount(cell, bounds('livingArea', 'area in square feet')));
  const draft = {
    line: line.line,
    address,
    town,
    zip: line.read('zip', readZip),
    state: line.read('state', readState),
    key: addressKey(address, town),
    facts: { ...(yearBuilt === null ? {} : { yearBuilt }), ...(livingArea === null ? {} : { livingArea }) },
  };
  if (address !== '' && !/\d/.test(address)) line.look('address', 'There is no house number in this address.');
  return line.goes() ? draft : null;
}

const CLIENT = { name: 'client', first: 'clientFirst', last: 'clientLast', email: 'clientEmail', phone: 'clientPhone' };

/** Null where something stops the row. Services and people are as they stand in the cells. */
export function jobDraft(line: Line, { formats }: Mapped, today: string): JobDraft | null {
  const day = line.need('day', (cell) => readDay(cell, formats.days));
  const deliveredOn = line.read('deliveredOn', (cell) => readDay(cell, formats.days));
  if (day !== null && day >= today) line.stop('day', 'This day is not over yet. Jobs that are still to come are booked.');
  if (deliveredOn !== null && deliveredOn > today) line.stop('deliveredOn', 'This day is still to come.');
  if (day !== null && deliveredOn !== null && deliveredOn < day)
    line.stop('deliveredOn', 'The report was handed over before the inspection.');
  const rest = {
    line: line.line,
    minute: line.read('time', readTime),
    services: [line.raw('services')].filter(Boolean),
    cents: line.read('fee', (cell) => readMoney(cell, formats.money)),
    people: [line.raw('first'), line.raw('second')].filter(Boolean),
    deliveredOn,
    reference: line.read('reference', text(60)) ?? '',
  };
  const property = propertyDraft(line);
  const party = partyDraft(line, CLIENT);
  return line.goes() && day !== null && property && party ? { ...rest, day, property, party } : null;
}
