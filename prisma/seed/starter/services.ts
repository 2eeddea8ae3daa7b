// What clients can order. Seasons and providers follow Great Lakes practice and Wisconsin's rules on wells (NR 812.44) and private septic systems.
import type { ServiceDefinition } from '@backsight/domain/jobs/services';

export type StarterService = ServiceDefinition & { base: boolean };

const feature = (value: string) => ({ fact: 'features', compare: 'includes', value }) as const;

/** While the water is drained for the winter neither runs, whatever the day says. */
const NOT_WINTERIZED = { not: { fact: 'winterized', compare: 'is', value: true } } as const;

export const SERVICES: readonly StarterService[] = [
  {
    key: 'inspection',
    name: 'Home inspection',
    base: true,
    searchWords: ['inspection', 'house'],
    offeredWhen: { always: true },
    providerOnly: false,
  },
  {
    key: 'radon',
    name: 'Radon measurement',
    base: false,
    searchWords: ['radon', 'gas in basement'],
    offeredWhen: { always: true },
    providerOnly: false,
    extraVisit: 'radon_pickup',
  },
  {
    key: 'wood_insects',
    name: 'Wood-destroying insects',
    base: false,
    searchWords: ['termites', 'carpenter ants', 'insects', 'pest'],
    offeredWhen: { always: true },
    providerOnly: false,
  },
  {
    key: 'infrared',
    name: 'Infrared scan',
    base: false,
    searchWords: ['thermal', 'infrared', 'camera for heat'],
    offeredWhen: { always: true },
    providerOnly: false,
  },
  {
    key: 'outbuilding',
    name: 'Outbuilding',
    base: false,
    searchWords: ['barn', 'shed', 'shop', 'outbuilding'],
    offeredWhen: { fact: 'outbuildings', compare: 'atLeast', value: 1 },
    providerOnly: false,
  },
  {
    key: 'pool_spa',
    name: 'Pool and spa',
    base: false,
    searchWords: ['pool', 'spa', 'hot tub'],
    offeredWhen: { all: [{ any: [feature('pool'), feature('spa')] }, { seasonFrom: '05-01', seasonTo: '10-15' }, NOT_WINTERIZED] },
    providerOnly: false,
  },
  {
    key: 'lawn_sprinklers',
    name: 'Lawn sprinklers',
    base: false,
    searchWords: ['irrigation', 'sprinklers'],
    offeredWhen: { all: [feature('lawn_sprinklers'), { seasonFrom: '05-01', seasonTo: '10-15' }, NOT_WINTERIZED] },
    providerOnly: false,
  },
  {
    key: 'well_water_sample',
    name: 'Well water sample, without opinion',
    base: false,
    searchWords: ['water test', 'well'],
    offeredWhen: { fact: 'waterSource', compare: 'is', value: 'private_well' },
    providerOnly: false,
  },
  {
    key: 'well_inspection',
    name: 'Well inspection by a licensed well driller or pump installer',
    base: false,
    searchWords: ['well'],
    offeredWhen: { fact: 'waterSource', compare: 'is', value: 'private_well' },
    providerOnly: true,
  },
  {
    key: 'septic',
    name: 'Septic evaluation by a credentialed person',
    base: false,
    searchWords: ['septic', 'tank', 'drain field'],
    offeredWhen: { fact: 'waste', compare: 'is', value: 'septic' },
    providerOnly: true,
  },
  {
    key: 'sewer_camera',
    name: 'Sewer camera',
    base: false,
    searchWords: ['sewer lateral', 'sewer scope', 'drain camera'],
    offeredWhen: { fact: 'waste', compare: 'is', value: 'public_sewer' },
    providerOnly: true,
  },
];
