// The firm's insurance policies: the two of this year, and those of the years before.
import { shiftDay } from '@backsight/domain/shared/calendar';
import { dayIn, type Tx } from '@backsight/store/database';

const INSURER = { insurer: 'Heron Mutual of Tamarack', noticeAddress: 'notices@heronmutual.example' };
const POLICIES = [
  {
    ...{ ...INSURER, kind: 'professional', prefix: 'PL', basis: 'claims_made', retroactiveDaysAgo: 3650 },
    ...{ limitCents: 50_000_000, aggregateCents: 100_000_000, deductibleCents: 250_000 },
    claimMeans: 'A demand in writing for money or services, or a suit, brought against the firm in the period.',
    reportable: 'Any written demand, and any complaint that may become one, before the policy ends.',
  },
  {
    ...{ ...INSURER, kind: 'general', prefix: 'GL', basis: 'occurrence', retroactiveDaysAgo: null },
    ...{ limitCents: 100_000_000, aggregateCents: 200_000_000, deductibleCents: 50_000 },
    claimMeans: 'Bodily injury or damage to property that happens in the period.',
    reportable: 'Damage or injury at a house, as soon as it is known.',
  },
];
/** Each year's policies begin on the day on which those of the year before end. */
const YEARS = 3;
const BEGAN_DAYS_AGO = 220;

export async function addInsurance(tx: Tx, today: string, id: () => string): Promise<void> {
  const years = Array.from({ length: YEARS }, (_, back) => shiftDay(today, -BEGAN_DAYS_AGO - 365 * back));
  await tx.db.insurancePolicy.createMany({
    data: years.flatMap((startsOn, back) =>
      POLICIES.map(({ prefix, retroactiveDaysAgo, ...policy }, at) => ({
        ...{ id: id(), ...policy, number: `${prefix}-${20 - back}-${4471 + at}` },
        ...{ startsOn: dayIn(startsOn), endsOn: dayIn(shiftDay(startsOn, 365)) },
        retroactiveOn: retroactiveDaysAgo === null ? null : dayIn(shiftDay(today, -retroactiveDaysAgo)),
      })),
    ),
  });
}
