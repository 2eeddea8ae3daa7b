// People of the firm, their roles and sessions.
import type { Role } from '@backsight/domain/people/roles';
import { dayIn, type Reader, type Tx } from './database.ts';

export type PersonRow = {
  id: string;
  name: string;
  email: string;
  phone: string;
  trainee: boolean;
  mayLead: boolean;
  homeAddress: string;
  homeLat: number;
  homeLon: number;
  startedOn: string;
  endedOn: string | null;
  version: number;
  roles: Role[];
  officeId: string;
  /** Has a password. */
  canSignIn: boolean;
};

const PERSON = `SELECT p.id::text AS id, p.office_id::text AS "officeId", p.name, p.email, p.phone, p.trainee, p.may_lead AS "mayLead", p.home_address AS "homeAddress",
  p.home_lat AS "homeLat", p.home_lon AS "homeLon", p.started_on::text AS "startedOn", p.ended_on::text AS "endedOn", p.version, p.password_hash IS NOT NULL AS "canSignIn",
  coalesce((SELECT array_agg(r.role ORDER BY r.role) FROM person_role r WHERE r.person_id = p.id), '{}') AS roles FROM person p`;

/** Everybody, by name as people sort names. */
export const listPeople = (reader: Reader): Promise<PersonRow[]> => reader.rows<PersonRow>(`${PERSON} ORDER BY p.name COLLATE "en-x-icu"`);

export const findPerson = async (reader: Reader, id: string): Promise<PersonRow | null> =>
  (await reader.rows<PersonRow>(`${PERSON} WHERE p.id = $1::uuid`, [id]))[0] ?? null;

export type NewPerson = Omit<PersonRow, 'version' | 'endedOn' | 'canSignIn'> & { passwordHash: string | null; recordedAt: Date };

/** Adds a person with roles. Constraint: person_email_key. */
export async function savePerson(tx: Tx, p: NewPerson): Promise<void> {
  const { roles, startedOn, ...row } = p;
  await tx.db.person.create({ data: { ...row, startedOn: dayIn(startedOn), roles: { create: roles.map((role) => ({ role })) } } });
}

export type PersonEdit = Partial<
  Pick<PersonRow, 'name' | 'email' | 'phone' | 'trainee' | 'mayLead' | 'homeAddress' | 'homeLat' | 'homeLon' | 'endedOn' | 'roles'>
>;

/** Changes a person if the version is still the one that was seen; answers whether it was. */
export async function updatePerson(tx: Tx, id: string, version: number, edit: PersonEdit): Promise<boolean> {
  const { roles, endedOn, ...columns } = edit;
  const data = {
    ...columns,
    ...(endedOn === undefined ? {} : { endedOn: endedOn === null ? null : dayIn(endedOn) }),
    version: { increment: 1 },
  };
  const { count } = await tx.db.person.updateMany({ where: { id, version }, data });
  if (count === 0) return false;
  if (roles) {
    await tx.db.personRole.deleteMany({ where: { personId: id } });
    await tx.db.personRole.createMany({ data: roles.map((role) => ({ personId: id, role })) });
  }
  return true;
}

/** How many owners could sign in if this person were none. */
export async function otherOwners(tx: Tx, id: string): Promise<number> {
  const [row] = await tx.rows<{ n: number }>(
    `SELECT count(*)::int AS n FROM person p JOIN person_role r ON r.person_id = p.id AND r.role = 'owner' WHERE p.id <> $1::uuid AND p.ended_on IS NULL AND p.password_hash IS NOT NULL`,
    [id],
  );
  return row?.n ?? 0;
}
