// The firm's insurance policies of this year: professional and general liability.
import { shiftDay } from '@backsight/domain/shared/calendar';
import { dayIn, type Tx } from '@backsight/store/database';

export async function addInsurance(tx: Tx, today: string, id: () => string): Promise<void> {
  const days = { startsOn: dayIn(shiftDay(today, -220)), endsOn: dayIn(shiftDay(today, 145)) };
  await tx.db.insurancePolicy.createMany({
    data: [
      {
        id: id(),
        kind: 'professional',
        insurer: 'Heron Mutual of Tamarack',
        number: 'PL-20-4471',
        basis: 'claims_made',
        ...days,
        retroactiveOn: dayIn(shiftDay(today, -3650)),
        limitCents: 50_000_000,
        aggregateCents: 100_000_000,
        claimMeans: 'A demand in writing for money or services, or a suit, brought against the firm in the period.',
        deductibleCents: 250_000,
        reportable: 'Any written demand, and any complaint that may become one, before the policy ends.',
        noticeAddress: 'notices@heronmutual.example',
      },
      {
        id: id(),
        kind: 'general',
        insurer: 'Heron Mutual of Tamarack',
        number: 'GL-20-4472',
        basis: 'occurrence',
        ...days,
        retroactiveOn: null,
        limitCents: 100_000_000,
        aggregateCents: 200_000_000,
        claimMeans: 'Bodily injury or damage to property that happens in the period.',
        deductibleCents: 50_000,
        reportable: 'Damage or injury at a house, as soon as it is known.',
        noticeAddress: 'notices@heronmutual.example',
      },
    ],
  });
}
