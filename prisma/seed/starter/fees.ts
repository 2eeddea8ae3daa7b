// Example fee schedule; sizes and add-ons lie in the usual range of published consumer prices (common practice). Every firm sets its own.
import type { FeeSchedule } from '@backsight/domain/fees/schedule';

const serviceFee = (key: string, label: string, cents: number) =>
  ({ key: `add-${key.replaceAll('_', '-')}`, label, applies: { service: key }, kind: 'addOn', service: key, cents }) as const;

export const FEE_SCHEDULE: FeeSchedule = {
  rules: [
    {
      key: 'base',
      label: 'Home inspection',
      applies: { service: 'inspection' },
      kind: 'base',
      assume: 1800,
      bands: [
        { upToSqFt: 1000, cents: 36_500 },
        { upToSqFt: 1500, cents: 41_500 },
        { upToSqFt: 2000, cents: 46_500 },
        { upToSqFt: 2500, cents: 51_500 },
        { upToSqFt: 3000, cents: 57_500 },
        { upToSqFt: 3500, cents: 63_500 },
        { upToSqFt: null, cents: 69_500 },
      ],
    },
    {
      key: 'large',
      label: 'Living area above 4,000 sq ft',
      applies: { service: 'inspection' },
      kind: 'perUnitOver',
      fact: 'livingArea',
      over: 4000,
      step: 500,
      cents: 5_000,
    },
    { key: 'older', label: 'Older house', applies: { fact: 'yearBuilt', compare: 'below', value: 1980 }, kind: 'surcharge', cents: 5_000 },
    {
      key: 'crawl',
      label: 'Crawl space',
      applies: { fact: 'foundation', compare: 'includes', value: 'crawl_space' },
      kind: 'surcharge',
      cents: 7_500,
    },
    {
      key: 'units',
      label: 'Further units',
      applies: { service: 'inspection' },
      kind: 'perUnitOver',
      fact: 'units',
      over: 1,
      step: 1,
      cents: 12_500,
      assume: 1,
    },
    serviceFee('radon', 'Radon measurement', 17_500),
    serviceFee('wood_insects', 'Wood-destroying insects', 9_500),
    serviceFee('infrared', 'Infrared scan', 15_000),
    serviceFee('outbuilding', 'Outbuilding', 8_500),
    serviceFee('pool_spa', 'Pool and spa', 17_500),
    serviceFee('lawn_sprinklers', 'Lawn sprinklers', 9_500),
    serviceFee('well_water_sample', 'Well water sample', 12_500),
    serviceFee('well_inspection', 'Well inspection (outside provider)', 32_500),
    serviceFee('septic', 'Septic evaluation (outside provider)', 42_500),
    serviceFee('sewer_camera', 'Sewer camera (outside provider)', 22_500),
    {
      key: 'travel',
      label: 'Travel',
      applies: { always: true },
      kind: 'travelBand',
      bands: [
        { upToMinutes: 35, cents: 0 },
        { upToMinutes: 60, cents: 4_000 },
        { upToMinutes: null, cents: 8_000 },
      ],
    },
    { key: 'least', label: 'Least fee', applies: { service: 'inspection' }, kind: 'minimum', cents: 35_000 },
  ],
};
