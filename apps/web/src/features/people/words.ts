// What the screens about people say and sort by.
import type { Person, Role } from '@backsight/contract/people';

export const hasLeft = (person: Pick<Person, 'endedOn'>, today: string): boolean => person.endedOn !== null && person.endedOn <= today;

export const mayAdd = (roles: readonly Role[]): boolean => roles.includes('owner') || roles.includes('office_manager');
export const mayChange = (roles: readonly Role[]): boolean => roles.includes('owner');

/** Whoever decides about absences enters those of everybody. */
export const decides = (roles: readonly Role[]): boolean => roles.some((role) => role !== 'inspector');

/** Which places of a pair a person may take. */
export function standing(person: Pick<Person, 'roles' | 'trainee' | 'mayLead'>): string {
  if (!person.roles.includes('inspector') && !person.roles.includes('lead_inspector')) return 'does not inspect';
  if (person.trainee) return 'second, trainee';
  return person.mayLead ? 'first or second' : 'second only';
}

const digits = (text: string): string => text.replace(/\D/g, '');

/** Whether a person fits what was typed (every word, anywhere; phone numbers also without their dashes), the role, and whether those who left are asked for. */
export function matches(person: Person, search: { q?: string; role?: Role; left?: boolean }, today: string): boolean {
  if (search.role && !person.roles.includes(search.role)) return false;
  if (!search.left && hasLeft(person, today)) return false;
  const text = `${person.name} ${person.email} ${person.phone} ${person.homeAddress}`.toLowerCase();
  const words = (search.q ?? '').toLowerCase().split(/\s+/).filter(Boolean);
  return words.every((word) => text.includes(word) || (/^[\d().-]{3,}$/.test(word) && digits(person.phone).includes(digits(word))));
}
