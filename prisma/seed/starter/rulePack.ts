// What the firm takes from Wisconsin's rules, with the day of the reading. Every row is to be re-read in the official source before it is relied on.
export const RULE_PACK = {
  jurisdiction: 'US-WI',
  versionDay: '2026-01-01',
  body: {
    name: 'Wisconsin',
    claimWindow: {
      shortYears: 2,
      longYears: 6,
      from: 'completed',
      sources: [
        'Wis. Stat. 440.977(1): two years from completion (read in a secondary copy)',
        'Wis. Stat. 893.43: six years for contracts may still apply, as one attorney argues (read in a secondary copy)',
      ],
    },
    agreement: { required: false, note: 'No rule on the form of the agreement was seen: the gate is the policy of the firm.' },
    repairs: { note: 'No ban on repairs with a fixed time was seen; the firm never sells repairs on houses that it inspected.' },
    license: { kind: 'home_inspector', renewal: '15 December of even years (from memory)', educationHours: 40 },
    education: {
      hours: 40,
      everyYears: 2,
      renewal: { month: 12, day: 15, years: 'even' },
      supervised: null,
      sources: [
        '40 hours in each two years: trade summary of the 2021 act (a second-hand source)',
        '15 December of even years: from memory, to be read in the official source',
      ],
    },
  },
} as const;

/** Approval limits to begin with; null = no limit. */
export const APPROVAL_LIMITS = [
  { role: 'owner', limitCents: null },
  { role: 'lead_inspector', limitCents: 50_000 },
  { role: 'office_manager', limitCents: 10_000 },
] as const;

export const OFFICE_HOURS = { 1: [480, 1020], 2: [480, 1020], 3: [480, 1020], 4: [480, 1020], 5: [480, 1020], 6: null, 7: null } as const;
