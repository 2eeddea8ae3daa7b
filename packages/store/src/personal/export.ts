// Everything about one person, table by table as the inventory leads to it.
import { INVENTORY, naming, type Path, type Table } from '@backsight/domain/personal/inventory';
import type { Subject } from '@backsight/domain/personal/erasure';
import type { Reader } from '../database.ts';
import { wayOf } from './ways.ts';

/** Of a job that somebody ordered: what was agreed and found. */
const OF_CLIENT: Readonly<Record<string, string>> = {
  job: 'id',
  visit: 'job_id',
  job_service: 'job_id',
  job_fee_line: 'job_id',
  job_discount: 'job_id',
  agreement: 'job_id',
  report: 'job_id',
  reinspection_item: 'job_id',
  later_look: 'job_id',
};
const THEIR_JOBS = "SELECT job_id FROM job_party WHERE party_id = $1 AND role = 'client'";

const BY_ADDRESS: Readonly<Record<string, string>> = {
  outgoing_mail: `$2 <> '' AND lower(to_address) = lower($2)`,
  inquiry: `(email <> '' AND lower(email) = lower($2)) OR ($3 <> '' AND regexp_replace(phone, '\\D', '', 'g') = regexp_replace($3, '\\D', '', 'g'))`,
  bad_address: 'address = lower($2)',
};

const condition = (table: Table, path: Path): string => (path[0] === 'address' ? BY_ADDRESS[table.name]! : wayOf(path));

/** Everything of the row but secrets, opinions and copies; words stand in the place of what names them. */
function select(table: Table, where: string): string {
  const left = Object.entries(table.columns).flatMap(([column, of]) =>
    of === 'secret' || of === 'elsewhere' || (typeof of === 'object' && of.kind === 'opinion') || column === 'content' ? [column] : [],
  );
  const words = naming(table, 'text')
    .filter(({ kind }) => kind !== 'opinion')
    .map(({ column }) => `'${column.replace(/_?text_id$/, '') || 'words'}', (SELECT body FROM kept_text WHERE id = x.${column})`);
  const named = naming(table, 'text').map(({ column }) => column);
  return `SELECT (to_jsonb(x) - '{${[...left, ...named].join(',')}}'::text[]) || jsonb_build_object(${words.join(', ')}) AS row FROM "${table.name}" x
    WHERE (${where}) AND ($1::uuid IS NOT NULL OR $2::text IS NULL OR $3::text IS NULL)`;
}

export type ExportTable = { name: string; rows: Record<string, unknown>[] };

export async function exportRows(
  reader: Reader,
  who: { subject: Subject; id: string; email: string; phone: string },
): Promise<ExportTable[]> {
  const tables: ExportTable[] = [];
  for (const table of INVENTORY) {
    const paths = table[who.subject];
    const client = who.subject === 'party' ? OF_CLIENT[table.name] : undefined;
    const ways = [...paths.map((path) => condition(table, path)), ...(client ? [`${client} IN (${THEIR_JOBS})`] : [])];
    if (who.subject === 'party' && table.name === 'property') ways.push(`id IN (SELECT property_id FROM job WHERE id IN (${THEIR_JOBS}))`);
    if (ways.length === 0) continue;
    const rows = await reader.rows<{ row: Record<string, unknown> }>(
      select(
        table,
        ways
          .map((way) => `(${way})`)
          .join(' OR ')
          .replaceAll('$1', '$1::uuid'),
      ),
      [who.id, who.email, who.phone],
    );
    if (rows.length > 0) tables.push({ name: table.name, rows: rows.map(({ row }) => row) });
  }
  return tables;
}

export const exportedPerson = async (
  reader: Reader,
  subject: Subject,
  id: string,
): Promise<{ name: string; email: string; phone: string } | null> =>
  (
    await reader.rows<{ name: string; email: string; phone: string }>(
      `SELECT name, coalesce(email, '') AS email, coalesce(phone, '') AS phone FROM ${subject === 'party' ? 'party' : 'person'} WHERE id = $1::uuid`,
      [id],
    )
  )[0] ?? null;

/** Sealed papers of the jobs that somebody ordered or signed. */
export const exportedPapers = (reader: Reader, partyId: string): Promise<{ name: string; sha256: string; content: Uint8Array }[]> =>
  reader.rows(
    `SELECT s.name, s.sha256, s.content FROM sealed_paper s LEFT JOIN agreement a ON a.id = s.agreement_id LEFT JOIN report r ON r.id = s.report_id
     WHERE s.content <> '' AND (coalesce(a.job_id, r.job_id) IN (${THEIR_JOBS.replaceAll('$1', '$1::uuid')}) OR EXISTS (SELECT FROM signer g WHERE g.agreement_id = a.id AND g.party_id = $1::uuid)) ORDER BY s.recorded_at, s.sha256`,
    [partyId],
  );

/** Names of files by fingerprint; those whose bytes went are left out. */
export const storedNames = (reader: Reader, sha256: readonly string[]): Promise<{ sha256: string; name: string }[]> =>
  reader.rows('SELECT sha256, name FROM stored_file WHERE sha256 = ANY ($1::text[]) AND erased_at IS NULL ORDER BY sha256', [sha256]);
