// A schedule with every kind of rule. Amounts follow common practice: a base by size, +$50 per 500 sq ft, age and crawl space adders.
import type { FeeRule, FeeSchedule } from '@backsight/domain/fees/schedule';
import type { FeeContext } from '@backsight/domain/fees/charges';
import type { PropertyFacts } from '@backsight/domain/shared/facts';

const always = { always: true } as const;

export const RULES = {
  base: {
    key: 'base',
    label: 'Inspection',
    applies: always,
    kind: 'base',
    assume: 1800,
    bands: [
      { upToSqFt: 1000, cents: 30000 },
      { upToSqFt: 2000, cents: 40000 },
      { upToSqFt: null, cents: 45000 },
    ],
  },
  size: {
    key: 'size',
    label: 'Large house',
    applies: always,
    kind: 'perUnitOver',
    fact: 'livingArea',
    over: 2500,
    step: 500,
    cents: 5000,
    assume: 1800,
  },
  panels: { key: 'panels', label: 'Further panels', applies: always, kind: 'perUnitOver', fact: 'panels', over: 1, step: 1, cents: 1500 },
  old: { key: 'old', label: 'Older house', applies: { fact: 'yearBuilt', compare: 'below', value: 1980 }, kind: 'surcharge', cents: 5000 },
  crawl: {
    key: 'crawl',
    label: 'Crawl space',
    applies: { fact: 'foundation', compare: 'includes', value: 'crawl_space' },
    kind: 'surcharge',
    cents: 7500,
  },
  radon: { key: 'radon', label: 'Radon test', applies: always, kind: 'addOn', service: 'radon', cents: 17500 },
  travel: {
    key: 'travel',
    label: 'Travel',
    applies: always,
    kind: 'travelBand',
    bands: [
      { upToMinutes: 30, cents: 0 },
      { upToMinutes: 60, cents: 4000 },
      { upToMinutes: null, cents: 9000 },
    ],
  },
  both: {
    key: 'both',
    label: 'Package',
    applies: { all: [{ service: 'radon' }, { service: 'wdi' }] },
    kind: 'discount',
    percent: 7.5,
    reason: 'radon and insects ordered together',
  },
  repeat: {
    key: 'repeat',
    label: 'Vacant house',
    applies: { fact: 'occupied', compare: 'is', value: 'vacant' },
    kind: 'discount',
    cents: 2500,
    reason: 'vacant house',
  },
  least: { key: 'least', label: 'Least fee', applies: always, kind: 'minimum', cents: 35000 },
} as const satisfies Record<string, FeeRule>;

export const SCHEDULE: FeeSchedule = { rules: Object.values(RULES) };

/** Everything that the schedule looks at is known, and nothing extra applies. */
export const PLAIN: PropertyFacts = { livingArea: 1600, yearBuilt: 1995, foundation: ['basement'], panels: 1, occupied: 'occupied' };

export const context = (facts: PropertyFacts = PLAIN, over: Partial<FeeContext> = {}): FeeContext => ({
  facts,
  services: [],
  day: '2026-06-02',
  travelMinutes: 20,
  serviceNames: { radon: 'Radon test', wdi: 'Insect report' },
  ...over,
});
