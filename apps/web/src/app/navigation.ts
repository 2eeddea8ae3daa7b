// What the left side offers: one line for each area whose screens exist, and who may use it.
import type { Who } from '@backsight/contract/route';
import type { Role } from '@backsight/contract/people';

export type Entry = { to: string; label: string; about: string; who: Exclude<Who, 'anyone'> };

export const NAVIGATION: readonly Entry[] = [
  { to: '/', label: 'Home', about: 'What needs you now', who: 'signed_in' },
  { to: '/my-day', label: 'My day', about: 'Your visits today and tomorrow, what to carry, and the site record', who: ['inspector', 'lead_inspector'] },
  { to: '/people', label: 'People', about: 'Who works here, how to reach them and what they may do', who: 'signed_in' },
];

/** The entries that somebody with these roles may use. */
export const entriesFor = (roles: readonly Role[]): Entry[] => NAVIGATION.filter(({ who }) => who === 'signed_in' || who.some((role) => roles.includes(role)));
