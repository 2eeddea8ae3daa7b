// The starter set in a test's database: what a new firm begins with, in force since the start of the year.
import { saveStarter } from '@backsight/store/starter';
import { dayIn, type Database } from '@backsight/store/database';
import { uuidv7 } from '@backsight/usecases/ids';
import { loadBook } from '@backsight/usecases/procedures/steps/loadBook';
import { STARTER } from '../../prisma/seed/starter/starter.ts';
import { CAST, OFFICE } from './cast.ts';
import { TEST_NOW, type TestService } from './database.ts';

export const IN_FORCE_FROM = new Date('2026-01-02T15:00:00Z');
const id = (n: number): string => `00000000-0000-7000-8000-0000003${String(n).padStart(5, '0')}`;

/** Writes the starter set, six pieces of each pooled kit kind, two insurance policies and the qualifications of the cast. Call after withCast. */
export function withStarter(service: TestService): void {
  service.holds.push({ name: 'starter', write: writeStarter });
}

async function writeStarter(database: Database): Promise<void> {
  await database.transaction(async (tx) => {
    const newId = () => uuidv7(TEST_NOW);
    const dated = { recordedAt: IN_FORCE_FROM, inForceFrom: IN_FORCE_FROM, newId };
    await saveStarter(tx, { ...STARTER, approvalLimits: [] }, dated); // the cast has its own limits
    await loadBook(tx, {
      procedures: STARTER.procedures,
      authorId: CAST.lead.id,
      approverId: CAST.owner.id,
      inForceFrom: IN_FORCE_FROM,
      at: IN_FORCE_FROM,
      newId,
    });
    await tx.db.siteworkRules.update({ where: { id: 1 }, data: { doubleLookOneIn: 0 } }); // no chance in tests
    const pooled = STARTER.kitKinds.filter((k) => !k.carriedByAll && !('ofKind' in k));
    const worn = STARTER.kitKinds.flatMap((k) => ('worn' in k ? [k.key] : []));
    const items = pooled.flatMap((k, i) =>
      [1, 2, 3, 4, 5, 6].map((n) => ({
        id: id(i * 10 + n),
        officeId: OFFICE,
        kind: k.key,
        serial: `${k.key}-${n}`,
        calibratedUntil: k.calibrated ? dayIn('2040-06-30') : null,
        note: '',
        ...(k.key === 'ladder' ? { ladderFeet: 40 } : {}),
        ...(worn.some((one) => one === k.key) ? { size: n % 2 === 0 ? 'L' : 'M' } : {}),
      })),
    );
    await tx.db.kitItem.createMany({ data: items });
    const sized = Object.values(CAST).flatMap((one, n) => worn.map((kind) => ({ personId: one.id, kind, size: n % 2 === 0 ? 'L' : 'M' })));
    await tx.db.personSize.createMany({ data: sized });
    const qualified = [CAST.lead, CAST.anna, CAST.cora].flatMap((m, i) =>
      STARTER.qualifications.map((q, j) => ({ id: id(500 + i * 10 + j), personId: m.id, kind: q.key, fromDay: dayIn('2024-01-01') })),
    );
    await tx.db.personQualification.createMany({ data: qualified });
    const policy = {
      insurer: 'Test Mutual',
      startsOn: dayIn('2026-01-01'),
      endsOn: dayIn('2041-01-01'),
      limitCents: 50_000_000,
      deductibleCents: 250_000,
      reportable: 'any demand',
      noticeAddress: 'claims@test.example',
    };
    await tx.db.insurancePolicy.createMany({
      data: [
        { ...policy, id: id(900), kind: 'professional', basis: 'claims_made', number: 'P-1', retroactiveOn: dayIn('2020-01-01') },
        { ...policy, id: id(901), kind: 'general', basis: 'occurrence', number: 'G-1' },
      ],
    });
  });
}
