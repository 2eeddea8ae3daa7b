// How long a visit takes and what it demands. The planning formula is common practice for a pair; every firm calibrates it.
import type { DurationRule } from '@backsight/domain/jobs/duration';
import type { RequirementRule } from '@backsight/domain/schedule/requirements';

const foundation = (value: string) => ({ fact: 'foundation', compare: 'includes', value }) as const;
const INSPECTION = { service: 'inspection' } as const;

export const DURATIONS: readonly DurationRule[] = [
  { key: 'begin', label: 'Arrival and opening talk', applies: { always: true }, minutes: 10 },
  { key: 'walk-through', label: 'Walk-through with the client', applies: { always: true }, minutes: 20, walkThrough: true },
  {
    key: 'area',
    label: 'Living area',
    applies: INSPECTION,
    minutes: { fact: 'livingArea', per: 500, minutes: 18, roundUp: false, assume: 1800 },
  },
  {
    key: 'old',
    label: 'House of fifty years and more',
    applies: { all: [INSPECTION, { fact: 'yearBuilt', compare: 'below', value: 1976 }] },
    minutes: 20,
  },
  { key: 'crawl', label: 'Crawl space', applies: { all: [INSPECTION, foundation('crawl_space')] }, minutes: 20 },
  { key: 'basement', label: 'Basement', applies: { all: [INSPECTION, foundation('basement')] }, minutes: 10 },
  {
    key: 'units',
    label: 'Two to four units',
    applies: { all: [INSPECTION, { fact: 'kind', compare: 'is', value: 'two_to_four_units' }] },
    minutes: 40,
  },
  { key: 'radon', label: 'Placing the radon monitor', applies: { service: 'radon' }, minutes: 15 },
  { key: 'insects', label: 'Wood-destroying insects', applies: { service: 'wood_insects' }, minutes: 20 },
  { key: 'infrared', label: 'Infrared scan', applies: { service: 'infrared' }, minutes: 30 },
  { key: 'outbuilding', label: 'Outbuilding', applies: { service: 'outbuilding' }, minutes: 20 },
  { key: 'pool', label: 'Pool and spa', applies: { service: 'pool_spa' }, minutes: 30 },
  { key: 'sprinklers', label: 'Lawn sprinklers', applies: { service: 'lawn_sprinklers' }, minutes: 25 },
  { key: 'sample', label: 'Drawing the water sample', applies: { service: 'well_water_sample' }, minutes: 15 },
  { key: 'writing', label: 'Writing the report', applies: INSPECTION, minutes: 75, report: true },
  {
    key: 'writing-old',
    label: 'Writing, older house',
    applies: { all: [INSPECTION, { fact: 'yearBuilt', compare: 'below', value: 1976 }] },
    minutes: 30,
    report: true,
  },
];

export const REQUIREMENTS: readonly RequirementRule[] = [
  { key: 'license', label: 'Home inspector license', applies: { always: true }, need: { kind: 'license', license: 'home_inspector' } },
  {
    key: 'insects',
    label: 'Wood-destroying insects',
    applies: { service: 'wood_insects' },
    need: { kind: 'qualification', key: 'wood_insects', who: 'any' },
  },
  { key: 'radon', label: 'Radon measurement', applies: { service: 'radon' }, need: { kind: 'qualification', key: 'radon', who: 'any' } },
  {
    key: 'infrared',
    label: 'Infrared scan',
    applies: { service: 'infrared' },
    need: { kind: 'qualification', key: 'infrared', who: 'any' },
  },
  { key: 'ladder', label: 'Roof edge and attic', applies: INSPECTION, need: { kind: 'kit', kit: 'ladder' } },
  {
    key: 'ladder-two',
    label: 'Eave of two stories',
    applies: { all: [INSPECTION, { fact: 'stories', compare: 'above', value: 1 }] },
    need: { kind: 'kit', kit: 'ladder_28' },
  },
  {
    key: 'ladder-three',
    label: 'Eave of three stories',
    applies: { all: [INSPECTION, { fact: 'stories', compare: 'above', value: 2 }] },
    need: { kind: 'kit', kit: 'ladder_40' },
  },
  {
    key: 'respirator',
    label: 'Crawl space',
    applies: { all: [INSPECTION, foundation('crawl_space')] },
    need: { kind: 'kit', kit: 'respirator' },
  },
  {
    key: 'crawl-suit',
    label: 'Crawl space',
    applies: { all: [INSPECTION, foundation('crawl_space')] },
    need: { kind: 'kit', kit: 'crawl_suit' },
  },
  { key: 'moisture', label: 'Moisture readings', applies: INSPECTION, need: { kind: 'kit', kit: 'moisture_meter' } },
  {
    key: 'gas',
    label: 'Fuel gas',
    applies: {
      any: [
        { fact: 'heatingFuel', compare: 'includes', value: 'natural_gas' },
        { fact: 'heatingFuel', compare: 'includes', value: 'propane' },
      ],
    },
    need: { kind: 'kit', kit: 'gas_detector' },
  },
  { key: 'monitor', label: 'Radon monitor', applies: { service: 'radon' }, need: { kind: 'kit', kit: 'radon_monitor' } },
  { key: 'camera', label: 'Infrared scan', applies: { service: 'infrared' }, need: { kind: 'kit', kit: 'infrared_camera' } },
  {
    key: 'daylight',
    label: 'The roof is looked at in daylight',
    applies: { all: [INSPECTION, { not: { fact: 'kind', compare: 'is', value: 'condominium' } }] },
    need: { kind: 'daylight', offsetMinutes: 90 },
  },
];
