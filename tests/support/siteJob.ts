// A booked inspection for the site record tests, written straight into the records: job, visit, pair, signed agreement.
import { createHash, randomUUID } from 'node:crypto';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import { keepText } from '@backsight/store/text';
import { CAST, OFFICE, type CastName } from './cast.ts';
import type { TestService } from './database.ts';

export type SiteJob = { jobId: string; visitId: string; clientId: string; otherId: string };
type Wish = { pair?: [CastName, CastName]; startsAt?: Date; signed?: boolean; facts?: PropertyFacts; kind?: string; terms?: string };

/** A house of 1,800 sq ft with a basement and one bathroom. */
export const HOUSE: PropertyFacts = {
  kind: 'single_family',
  yearBuilt: 1972,
  livingArea: 1800,
  stories: 1,
  units: 1,
  bedrooms: 3,
  bathrooms: 1,
  heatingSystems: 1,
  coolingSystems: 0,
  coolingKind: 'none',
  panels: 1,
  waterHeaters: 1,
  outbuildings: 0,
  foundation: ['basement'],
  foundationMaterial: 'poured',
  roofCovering: 'asphalt',
  heatingKind: ['forced_air'],
  heatingFuel: ['natural_gas'],
  waterSource: 'public',
  waste: 'public_sewer',
  features: ['attached_garage'],
  occupied: 'occupied',
  waterOn: true,
  gasOn: true,
  electricityOn: true,
  winterized: false,
};

/** Needs the starter set. The client consents to nobody else; `otherId` is the buyer's agent. */
export async function siteJob(service: TestService, wish: Wish = {}): Promise<SiteJob> {
  const job: SiteJob = { jobId: randomUUID(), visitId: randomUUID(), clientId: randomUUID(), otherId: randomUUID() };
  const startsAt = new Date(Math.floor((wish.startsAt ?? service.clock.now).getTime() / 60_000) * 60_000);
  await service.database.transaction(async (tx) => {
    await writeJob(tx, job, wish, startsAt);
    await writeVisit(tx, job, wish, startsAt);
    if (wish.signed ?? true) await sign(tx, { ...job, at: recordedAt });
  });
  return job;
}

const recordedAt = new Date('2026-05-01T15:00:00Z');

async function writeJob(tx: Tx, { jobId, clientId, otherId }: SiteJob, wish: Wish, startsAt: Date): Promise<void> {
  const { db } = tx;
  const propertyId = randomUUID();
  const schedule = await db.feeSchedule.findFirstOrThrow();
  const rules = await db.bookingRules.findFirstOrThrow();
  const [number] = await tx.rows<{ n: number }>('SELECT greatest(max(number), 500000)::int + 1 AS n FROM job');
  const where = { address: '14 Alder Road', town: 'Birchmere', zip: '54999', addressKey: propertyId, lat: 44.03, lon: -88.54 };
  await db.property.create({ data: { id: propertyId, ...where, recordedAt } });
  await db.job.create({
    data: {
      id: jobId,
      number: number!.n,
      officeId: OFFICE,
      propertyId,
      kind: 'inspection',
      state: 'booked',
      facts: wish.facts ?? HOUSE,
      scheduleId: schedule.id,
      rulesId: rules.id,
      terms: wish.terms ?? 'due_at_visit',
      recordedAt,
    },
  });
  await db.party.createMany({
    data: [
      { id: clientId, name: 'Paula Prior', email: `paula-${jobId.slice(0, 8)}@test.example`, phone: '920-555-0171', recordedAt },
      { id: otherId, name: 'Arno Agent', email: 'arno@test.example', phone: '920-555-0172', recordedAt },
    ],
  });
  await db.jobParty.createMany({
    data: [
      { id: randomUUID(), jobId, partyId: clientId, role: 'client' },
      { id: randomUUID(), jobId, partyId: otherId, role: 'buyers_agent' },
    ],
  });
  const details = { why: 'x', how: 'Seller opens at the side door' };
  await db.jobNeed.create({ data: { id: randomUUID(), jobId, kind: 'access', state: 'settled', dueAt: startsAt, details, recordedAt } });
}

async function writeVisit({ db }: Tx, { jobId, visitId }: SiteJob, wish: Wish, startsAt: Date): Promise<void> {
  const endsAt = new Date(startsAt.getTime() + 3 * 3_600_000);
  const times = { startsAt, endsAt, live: true };
  const kind = wish.kind ?? 'inspection';
  await db.visit.create({ data: { id: visitId, jobId, kind, crewSize: 2, state: 'booked', because: {}, recordedAt, ...times } });
  const pair = (wish.pair ?? ['anna', 'ben']).map((who) => CAST[who].id);
  await db.assignment.createMany({
    data: pair.map((personId, at) => ({ visitId, personId, place: at === 0 ? 'first' : 'second', ...times })),
  });
  await db.visitKit.createMany({ data: [{ visitId, kind: 'ladder' }] });
}

type Tx = Parameters<Parameters<TestService['database']['transaction']>[0]>[0];

async function sign(tx: Tx, { jobId, clientId, at }: { jobId: string; clientId: string; at: Date }): Promise<void> {
  const { db } = tx;
  const text = await db.agreementText.findFirstOrThrow();
  const sha256 = createHash('sha256').update('x').digest('hex');
  const [agreementId, signerId] = [randomUUID(), randomUUID()];
  await db.agreement.create({
    data: { id: agreementId, jobId, textId: text.id, body: 'x', sha256, issuedAt: at, recordedAt: at },
  });
  await db.signer.create({
    data: {
      id: signerId,
      agreementId,
      partyId: clientId,
      capacity: 'self',
      tokenHash: randomUUID(),
      tokenEndsAt: new Date('2027-01-01'),
    },
  });
  const nameTextId = await keepText(tx, randomUUID(), 'Paula Prior', at);
  await db.signature.create({
    data: {
      id: randomUUID(),
      signerId,
      nameTextId,
      sha256,
      consentSha256: sha256,
      method: 'paper',
      device: '',
      ipHash: '',
      happenedAt: at,
      recordedAt: at,
    },
  });
}
