// Whether a service is offered, and the sentence that says why.
import { describe, expect, it } from 'vitest';
import { offered } from '@backsight/domain/jobs/services';
import type { ServiceDefinition } from '@backsight/domain/jobs/services';
import type { PropertyFacts } from '@backsight/domain/shared/facts';

const sprinklers: ServiceDefinition = {
  key: 'irrigation',
  name: 'Lawn sprinklers',
  searchWords: ['irrigation', 'lawn'],
  providerOnly: false,
  offeredWhen: {
    all: [
      { fact: 'features', compare: 'includes', value: 'lawn_sprinklers' },
      { seasonFrom: '05-01', seasonTo: '10-15' },
    ],
  },
};
const radon: ServiceDefinition = {
  key: 'radon',
  name: 'Radon test',
  searchWords: ['radon', 'gas'],
  offeredWhen: { always: true },
  providerOnly: false,
  extraVisit: 'radon_pick_up',
};
const septic: ServiceDefinition = {
  ...radon,
  key: 'septic',
  name: 'Septic',
  offeredWhen: { fact: 'waste', compare: 'is', value: 'septic' },
  providerOnly: true,
};
const pool: ServiceDefinition = { ...radon, key: 'pool', offeredWhen: { seasonFrom: '05-01', seasonTo: '10-15' } };

const at = (facts: PropertyFacts = {}, day = '2026-06-02') => ({ facts, services: [], day });

describe('offered', () => {
  it.each([
    [radon, at(), 'yes', 'Offered at every property.'],
    [pool, at(), 'yes', 'Offered from May 1 to October 15.'],
    [pool, at({}, '2026-12-01'), 'no', 'Not offered here on this day, only from May 1 to October 15.'],
    [sprinklers, at({ features: ['lawn_sprinklers'] }), 'yes', 'Offered when there are lawn sprinklers and from May 1 to October 15.'],
    [
      sprinklers,
      at({ features: ['lawn_sprinklers'] }, '2026-11-02'),
      'no',
      'Not offered here on this day, only when there are lawn sprinklers and from May 1 to October 15.',
    ],
    [sprinklers, at(), 'unknown', 'Offered only when there are lawn sprinklers and from May 1 to October 15; not known yet: features.'],
    [
      sprinklers,
      at({}, '2026-11-02'),
      'no',
      'Not offered here on this day, only when there are lawn sprinklers and from May 1 to October 15.',
    ],
    [septic, at({ waste: 'septic' }), 'yes', 'Offered when the waste water goes to a private septic system. Done by an outside provider.'],
    [
      septic,
      at({ waste: 'public_sewer' }),
      'no',
      'Not offered here on this day, only when the waste water goes to a private septic system.',
    ],
  ] as const)('%#', (service, context, truth, why) => expect(offered(service, context)).toEqual({ offered: truth, why }));
});
