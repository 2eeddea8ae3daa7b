// The rule packs that a firm begins with, its approval limits and office hours.
import { STATE_PACKS } from './statePacks.ts';

/** What the education of inspectors is counted by. */
const WISCONSIN_EDUCATION = {
  hours: 40,
  everyYears: 2,
  renewal: { month: 12, day: 15, years: 'even' },
  supervised: null,
  sources: [
    '40 hours in each two years: trade summary of the 2021 act (a second-hand source)',
    '15 December of even years: from memory, to be read in the official source',
  ],
} as const;

export const RULE_PACKS = STATE_PACKS.map(({ jurisdiction, versionDay, name, rows }) => ({
  jurisdiction,
  versionDay,
  body: jurisdiction === 'US-WI' ? { name, rows, education: WISCONSIN_EDUCATION } : { name, rows },
}));

/** Approval limits to begin with; null = no limit. */
export const APPROVAL_LIMITS = [
  { role: 'owner', limitCents: null },
  { role: 'lead_inspector', limitCents: 50_000 },
  { role: 'office_manager', limitCents: 10_000 },
] as const;

export const OFFICE_HOURS = { 1: [480, 1020], 2: [480, 1020], 3: [480, 1020], 4: [480, 1020], 5: [480, 1020], 6: null, 7: null } as const;
