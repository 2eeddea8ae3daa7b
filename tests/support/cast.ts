// The known cast of the service tests: a small firm, whose people every test may name.
import { hash as argon2id } from '@node-rs/argon2';
import type { Role } from '@backsight/domain/people/roles';
import type { Actor } from '@backsight/usecases/run';
import { dayIn, type Database, type Tx } from '@backsight/store/database';
import type { TestService } from './database.ts';

const id = (n: number): string => `00000000-0000-7000-8000-${String(n).padStart(12, '0')}`;

export const OFFICE = id(1);
export const PASSWORD = 'a long test password';
/** The least that argon2id does: a stored hash says its own cost, and thousands of test sign-ins need not take their time. */
export const CHEAP = { memoryCost: 8, timeCost: 1, parallelism: 1 };

type Member = { id: string; name: string; email: string; roles: Role[]; place: [number, number]; trainee?: boolean; mayLead?: boolean };
const member = (n: number, name: string, roles: Role[], place: [number, number], more: Partial<Member> = {}): Member => ({
  id: id(n),
  name,
  email: `${name.split(' ')[0]!.toLowerCase()}@test.example`,
  roles,
  place,
  ...more,
});

/** Towns of the invented county, as places. */
export const BIRCHMERE: [number, number] = [44.03, -88.54];
export const PORT_ANSEL: [number, number] = [44.19, -88.46];

export const CAST = {
  owner: member(10, 'Olive Owner', ['owner'], BIRCHMERE),
  second: member(11, 'Sam Secondowner', ['owner'], BIRCHMERE),
  office: member(12, 'Otto Office', ['office_manager'], BIRCHMERE),
  lead: member(13, 'Lena Lead', ['lead_inspector', 'inspector'], BIRCHMERE),
  lead2: member(14, 'Luis Lead', ['lead_inspector', 'inspector'], PORT_ANSEL),
  anna: member(20, 'Anna Inspector', ['inspector'], BIRCHMERE),
  ben: member(21, 'Ben Inspector', ['inspector'], BIRCHMERE),
  cora: member(22, 'Cora Inspector', ['inspector'], PORT_ANSEL),
  dan: member(23, 'Dan Inspector', ['inspector'], PORT_ANSEL),
  tess: member(30, 'Tess Trainee', ['inspector'], BIRCHMERE, { trainee: true, mayLead: false }),
} satisfies Record<string, Member>;
export type CastName = keyof typeof CAST;

/** The person as the actor of an act. */
export const as = (who: CastName): Actor => ({ kind: 'person', id: CAST[who].id, name: CAST[who].name, roles: CAST[who].roles });

const HOURS = { 1: [480, 1020], 2: [480, 1020], 3: [480, 1020], 4: [480, 1020], 5: [480, 1020], 6: null, 7: null };

/** Fills the file's database with the firm and its cast: inspectors licensed and at work on weekdays from 8 to 5. */
export function withCast(service: TestService): void {
  service.holds.push({ name: 'cast', write: writeCast });
}

async function writeCast(database: Database): Promise<void> {
  const hash = await argon2id(PASSWORD, CHEAP);
  const recordedAt = new Date('2026-01-02T15:00:00Z');
  await database.transaction(async ({ db }) => {
    await db.firm.create({
      data: {
        name: 'Test Inspections',
        phone: '920-555-0100',
        email: 'office@test.example',
        address: '1 Quay Street, Birchmere',
        zone: 'America/Chicago',
        states: ['US-WI'],
        onCallPhone: '920-555-0101',
        setUpAt: recordedAt,
      },
    });
    await db.office.create({
      data: {
        id: OFFICE,
        name: 'Birchmere',
        zone: 'America/Chicago',
        jurisdiction: 'US-WI',
        address: '1 Quay Street, Birchmere',
        lat: BIRCHMERE[0],
        lon: BIRCHMERE[1],
        hours: HOURS,
      },
    });
    await db.approvalLimit.createMany({
      data: [
        { role: 'owner', limitCents: null },
        { role: 'lead_inspector', limitCents: 50_000 },
        { role: 'office_manager', limitCents: 10_000 },
      ],
    });
    for (const m of Object.values(CAST) as Member[]) {
      await db.person.create({
        data: {
          id: m.id,
          officeId: OFFICE,
          name: m.name,
          email: m.email,
          phone: '920-555-0102',
          passwordHash: hash,
          trainee: m.trainee ?? false,
          mayLead: m.mayLead ?? true,
          homeAddress: 'Birchmere',
          homeLat: m.place[0],
          homeLon: m.place[1],
          startedOn: dayIn('2024-01-01'),
          recordedAt,
          roles: { create: m.roles.map((role) => ({ role })) },
        },
      });
      if (m.roles.includes('inspector')) await atWork(db, m);
    }
  });
}

async function atWork(db: Tx['db'], m: Member): Promise<void> {
  const number = Number(m.id.slice(-4));
  for (const weekday of [1, 2, 3, 4, 5]) {
    await db.workPattern.create({
      data: {
        id: id(100_000 + number * 10 + weekday),
        personId: m.id,
        weekday,
        startMinute: 480,
        endMinute: 1020,
        fromDay: dayIn('2024-01-01'),
      },
    });
  }
  if (!m.trainee)
    await db.license.create({
      data: {
        id: id(200_000 + number),
        personId: m.id,
        kind: 'home_inspector',
        number: `WI-${number}`,
        fromDay: dayIn('2024-12-15'),
        untilDay: dayIn('2040-12-14'),
      },
    });
}
