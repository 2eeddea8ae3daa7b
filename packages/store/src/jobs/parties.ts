// People outside the firm, and their roles on jobs.
import type { PartyRole } from '@backsight/domain/jobs/words';
import type { Reader, Tx } from '../database.ts';
import { anywhere, PARTY as WORDS } from '../find.ts';

export type PartyRow = {
  id: string;
  name: string;
  email: string | null;
  phone: string | null;
  minor: boolean;
  wishes: string;
  askOwner: string | null;
};

const PARTY = 'SELECT id::text AS id, name, email, phone, minor, wishes, ask_owner AS "askOwner" FROM party';

export const findParties = (reader: Reader, ids: readonly string[]): Promise<PartyRow[]> =>
  reader.rows<PartyRow>(`${PARTY} WHERE id = ANY($1::uuid[]) ORDER BY id`, [ids]);

/** People whose name, e-mail address or phone number begins with or holds the text; at most 10. */
export const searchParties = (reader: Reader, text: string): Promise<PartyRow[]> =>
  reader.rows<PartyRow>(`${PARTY} WHERE ${WORDS('party')} LIKE $1 ORDER BY name COLLATE "en-x-icu", id LIMIT 10`, [anywhere(text)]);

/** Adds people who are not on file yet. */
export async function saveParties(
  tx: Tx,
  parties: readonly (Omit<PartyRow, 'askOwner' | 'wishes'> & { recordedAt: Date })[],
): Promise<void> {
  await tx.db.party.createMany({ data: [...parties], skipDuplicates: true });
}

/** How somebody is reached: an empty language is the firm's own. */
type Reached = { language: string; assistance: string; largePrint: boolean };
export type PartyEdit = Partial<Pick<PartyRow, 'name' | 'email' | 'phone' | 'wishes' | 'askOwner'> & Reached>;

/** Changes a person outside the firm; answers whether there was one. */
export const updateParty = async (tx: Tx, id: string, edit: PartyEdit): Promise<boolean> =>
  (await tx.db.party.updateMany({ where: { id }, data: edit })).count > 0;

export type JobPartyRow = { id: string; partyId: string; role: PartyRole; mayReceiveReport: boolean; consentAt: Date | null };

export async function saveJobParties(tx: Tx, jobId: string, rows: readonly JobPartyRow[]): Promise<void> {
  await tx.db.jobParty.createMany({ data: rows.map((row) => ({ ...row, jobId })) });
}

export const findJobParties = (reader: Reader, jobId: string): Promise<(JobPartyRow & { name: string; email: string | null })[]> =>
  reader.rows(
    `SELECT jp.id::text AS id, jp.party_id::text AS "partyId", jp.role, jp.may_receive_report AS "mayReceiveReport", jp.consent_at AS "consentAt", p.name, p.email
     FROM job_party jp JOIN party p ON p.id = jp.party_id WHERE jp.job_id = $1::uuid ORDER BY jp.id`,
    [jobId],
  );

export async function removeJobParty(tx: Tx, id: string): Promise<void> {
  await tx.db.jobParty.delete({ where: { id } });
}
