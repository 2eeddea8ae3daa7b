// What a visit that does not go as booked costs, and what the season puts off. Percents, hours and prices are common practice; every firm sets its own.
import type { DeskRules } from '@backsight/domain/jobs/deskRules';

export const DESK_RULES: DeskRules = {
  endings: { refused_at_the_door: 50, nobody_came: 50, stopped_for_safety: 0, stopped_by_client: 100 },
  late: { hours: 24, movePercent: 0, cancelPercent: 50 },
  // Wisconsin Department of Health Services: two days at least; twelve hours of closed house before from memory.
  radon: { shortestHours: 48, closedHouseHours: 12 },
  holdingHours: 30,
  laterLooks: [
    {
      key: 'cooling',
      label: 'Cooling looked at later',
      reason: 'Cooling equipment is not run while the outdoor air is or was recently below 60 to 65 F',
      applies: {
        all: [
          { fact: 'coolingSystems', compare: 'atLeast', value: 1 },
          { seasonFrom: '10-15', seasonTo: '05-14' },
        ],
      },
      visitKind: 'exterior_relook',
      cents: 9500,
      remindOn: '05-15',
    },
    {
      key: 'roof',
      label: 'Roof looked at again after the snow',
      reason: 'Snow on roof and ground is not moved; what lies under it is recorded as not inspected',
      applies: {
        all: [{ seasonFrom: '12-01', seasonTo: '03-31' }, { not: { fact: 'kind', compare: 'is', value: 'condominium' } }],
      },
      visitKind: 'roof_relook',
      cents: 9500,
      remindOn: '04-10',
    },
  ],
};
