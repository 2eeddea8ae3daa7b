// What the database itself refuses, whatever the program does.
import pg from 'pg';
import { describe, expect, it } from 'vitest';
import { sealAudit, verifyAudit } from '@backsight/store/audit';
import { brokenRule } from '@backsight/store/constraint';
import { addPerson } from '@backsight/usecases/people/addPerson';
import { as, CAST, OFFICE, withCast } from '../support/cast.ts';
import { testService } from '../support/database.ts';

const service = testService();
withCast(service);

const person = (n: number) => ({
  id: `00000000-0000-7000-8000-00000000080${n}`,
  officeId: OFFICE,
  name: 'N',
  email: `n${n}@test.example`,
  phone: '1',
  trainee: false,
  mayLead: true,
  homeAddress: 'x',
  homeLat: 44,
  homeLon: -88,
  startedOn: '2026-01-01',
  roles: [],
});

async function asOwnerOfTheDatabase<T>(work: (client: pg.Client) => Promise<T>): Promise<T> {
  const client = new pg.Client(service.url);
  await client.connect();
  try {
    return await work(client);
  } finally {
    await client.end();
  }
}

describe('history is kept', () => {
  it('the service itself lacks the right to change it', async () => {
    await service.runner.run(addPerson, person(1), { actor: as('owner') });
    expect(service.database.guards).toBe('role');
    await expect(service.database.read.rows('UPDATE audit_row SET operation = $1', ['x'])).rejects.toThrow(/permission denied/);
  });
  it.each(["UPDATE audit_row SET operation = 'x'", 'DELETE FROM audit_row', 'TRUNCATE audit_row CASCADE'])(
    "and even the database's owner is refused: %s",
    async (sql) => {
      await asOwnerOfTheDatabase(async (client) => {
        const error = await client.query(sql).then(
          () => null,
          (e) => e,
        );
        expect(brokenRule(error)).toBe('history_is_kept');
      });
    },
  );
});

describe('the audit trail', () => {
  it('is whole, and shows the row that somebody changed behind its back', async () => {
    for (const n of [2, 3, 4]) await service.runner.run(addPerson, person(n), { actor: as('owner') });
    await sealAudit(service.database);
    const whole = await verifyAudit(service.database.read);
    expect(whole).toMatchObject({ unsealed: 0, brokenAt: null });
    expect(whole.sealed).toBeGreaterThanOrEqual(4);
    await asOwnerOfTheDatabase(async (client) => {
      await client.query('ALTER TABLE audit_row DISABLE TRIGGER history_is_kept');
      await client.query("UPDATE audit_row SET thing_kind = 'other' WHERE id = (SELECT audit_id FROM audit_seal WHERE seal_no = 3)");
      await client.query('ALTER TABLE audit_row ENABLE TRIGGER history_is_kept');
    });
    expect((await verifyAudit(service.database.read)).brokenAt).toBe(3);
  });
});

describe('the runner', () => {
  it('does an act once when its twins race under one key', async () => {
    const runs = await Promise.all(
      Array.from({ length: 8 }, () => service.runner.run(addPerson, person(5), { actor: as('owner'), key: 'twins-race' })),
    );
    expect(runs.every((r) => r.ok)).toBe(true);
    const [rows] = await service.database.read.rows<{ n: number }>('SELECT count(*)::int AS n FROM audit_row WHERE thing_id = $1::uuid', [
      person(5).id,
    ]);
    expect(rows?.n).toBe(1);
  });
  it('rolls everything back when the domain refuses', async () => {
    const refused = await service.runner.run(addPerson, { ...person(6), password: 'short' }, { actor: as('owner'), key: 'refused-once' });
    expect(refused).toMatchObject({ ok: false, code: 'password-too-short' });
    const again = await service.runner.run(addPerson, person(6), { actor: as('owner'), key: 'refused-once' });
    expect(again.ok).toBe(true);
  });
  it('keeps absences in whole minutes, whatever writes them', async () => {
    const write = service.database.transaction((tx) =>
      tx.db.absence.create({
        data: {
          id: person(8).id,
          personId: CAST.anna.id,
          startsAt: new Date('2026-07-01T13:00:20Z'),
          endsAt: new Date('2026-07-01T15:00:00Z'),
          reason: 'dentist',
          recordedAt: service.clock.now,
        },
      }),
    );
    await expect(write).rejects.toThrow(/absence_whole_minutes/);
  });
  it("keeps instants in UTC whatever the host's zone", async () => {
    await service.database.transaction(async (tx) => {
      await tx.db.absence.create({
        data: {
          id: person(7).id,
          personId: CAST.anna.id,
          startsAt: new Date('2026-07-01T13:00:00Z'),
          endsAt: new Date('2026-07-01T15:00:00Z'),
          reason: 'dentist',
          recordedAt: service.clock.now,
        },
      });
    });
    const [bySql] = await service.database.read.rows<{ startsAt: Date }>('SELECT starts_at AS "startsAt" FROM absence WHERE id = $1', [
      person(7).id,
    ]);
    const byPrisma = await service.database.transaction((tx) => tx.db.absence.findUnique({ where: { id: person(7).id } }));
    expect([bySql?.startsAt.toISOString(), byPrisma?.startsAt.toISOString()]).toEqual([
      '2026-07-01T13:00:00.000Z',
      '2026-07-01T13:00:00.000Z',
    ]);
  });
});
