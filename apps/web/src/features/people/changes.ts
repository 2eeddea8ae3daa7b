// What a form about a person changes, and where it differs from what is on file now.
import { ROLES, type Person } from '@backsight/contract/people';
import type { PersonChange } from '../../api/people.ts';
import type { PersonDraft } from './PersonInputs.tsx';

/** `endedOn` is '' for somebody who stays. */
export type ChangeDraft = PersonDraft & { endedOn: string };

const NAMES: (keyof ChangeDraft)[] = [
  'name',
  'email',
  'phone',
  'roles',
  'trainee',
  'mayLead',
  'homeAddress',
  'homeLat',
  'homeLon',
  'endedOn',
];

export const draftOf = (p: Person): ChangeDraft => ({
  name: p.name,
  email: p.email,
  phone: p.phone,
  trainee: p.trainee,
  mayLead: p.mayLead,
  homeAddress: p.homeAddress,
  homeLat: p.homeLat ?? '',
  homeLon: p.homeLon ?? '',
  roles: p.roles,
  endedOn: p.endedOn ?? '',
});

const same = (a: unknown, b: unknown): boolean =>
  Array.isArray(a) && Array.isArray(b) ? a.length === b.length && a.every((one) => b.includes(one)) : a === b;
const changed = (before: ChangeDraft, after: ChangeDraft) => NAMES.filter((name) => !same(before[name], after[name]));

/** The body of the change: only what differs from what was seen. A number that was emptied goes as null, which the service refuses by name. */
export const changesOf = (before: ChangeDraft, after: ChangeDraft): PersonChange =>
  Object.fromEntries(
    changed(before, after).map((name) => [
      name,
      after[name] === '' && /^home|endedOn/.test(name) && name !== 'homeAddress' ? null : after[name],
    ]),
  );

const shown = (value: ChangeDraft[keyof ChangeDraft]): string =>
  Array.isArray(value) ? value.map((role) => ROLES[role]).join(', ') : typeof value === 'boolean' ? (value ? 'yes' : 'no') : String(value);

/** Each input whose value is not what is on file. */
export const differences = (mine: ChangeDraft, theirs: ChangeDraft): { name: keyof ChangeDraft; mine: string; theirs: string }[] =>
  changed(theirs, mine).map((name) => ({ name, mine: shown(mine[name]), theirs: shown(theirs[name]) }));
