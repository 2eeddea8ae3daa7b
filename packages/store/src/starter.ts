// Writes what a firm begins with: services, rules, schedule, texts, accounts. The procedure book is written by its own area.
import type { Prisma } from './generated/client.ts';
import { dayIn, type Tx } from './database.ts';

/** The parts of a starter set that are rows of their own. */
export type StarterRows = {
  accounts: readonly { code: string; name: string; kind: string }[];
  agreementTexts: readonly { kind: string; title: string; consentText: string; clauses: unknown; limits: unknown }[];
  bookingRules: unknown;
  feeSchedule: unknown;
  approvalLimits: readonly { role: string; limitCents: number | null }[];
  rulePacks: readonly { jurisdiction: string; versionDay: string; body: unknown }[];
  services: readonly {
    key: string;
    name: string;
    searchWords: readonly string[];
    base: boolean;
    providerOnly: boolean;
    offeredWhen: unknown;
    extraVisit?: string;
  }[];
  towns: readonly { name: string; zip: string; lat: number; lon: number }[];
  kitKinds: readonly {
    key: string;
    name: string;
    calibrated: boolean;
    carriedByAll: boolean;
    worn?: boolean;
    ofKind?: string;
    minFeet?: number;
  }[];
  kitChecks: readonly { kind: string; checkKind: string; everyDays: number }[];
  qualifications: readonly { key: string; name: string }[];
  visitKinds: readonly {
    key: string;
    name: string;
    crewSize: number;
    minutes: number;
    reportMinutes: number;
    onSiteHazard: boolean;
    afterHours?: number;
  }[];
};

const json = (value: unknown) => value as Prisma.InputJsonValue;

/** Writes the set into an empty firm. `inForceFrom` is the instant from which its dated parts count. */
export async function saveStarter(tx: Tx, s: StarterRows, at: { inForceFrom: Date; recordedAt: Date; newId: () => string }): Promise<void> {
  const { db } = tx;
  const dated = { inForceFrom: at.inForceFrom, recordedAt: at.recordedAt };
  await db.ledgerAccount.createMany({ data: [...s.accounts] });
  await db.approvalLimit.createMany({ data: [...s.approvalLimits] });
  await db.town.createMany({ data: [...s.towns] });
  await db.kitKind.createMany({ data: [...s.kitKinds] });
  await db.kitCheckNeed.createMany({ data: [...s.kitChecks] });
  await db.qualificationKind.createMany({ data: [...s.qualifications] });
  await db.visitKind.createMany({ data: s.visitKinds.map((kind) => ({ afterHours: 0, ...kind })) });
  await db.service.createMany({
    data: s.services.map(({ offeredWhen, searchWords, ...service }, position) => ({
      ...service,
      position,
      searchWords: [...searchWords],
      offeredWhen: json(offeredWhen),
    })),
  });
  await db.rulePack.createMany({
    data: s.rulePacks.map(({ jurisdiction, versionDay, body }) => ({
      id: at.newId(),
      jurisdiction,
      versionDay: dayIn(versionDay),
      body: json(body),
    })),
  });
  await db.agreementText.createMany({
    data: s.agreementTexts.map(({ clauses, limits, ...text }, n) => ({
      ...{ id: at.newId(), number: n + 1, ...text, ...dated },
      ...{ clauses: json(clauses), limits: json(limits), approvedAt: at.recordedAt },
    })),
  });
  await db.feeSchedule.create({
    data: { id: at.newId(), number: 1, name: 'First schedule', body: json(s.feeSchedule), state: 'in_force', ...dated },
  });
  await db.bookingRules.create({ data: { id: at.newId(), number: 1, body: json(s.bookingRules), ...dated } });
}
