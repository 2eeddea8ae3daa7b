// The register of reports in sequence, for the screen, for print and as a table (as 68 Ill. Adm. Code 1410.240(c) asks for one).
import { DateTime } from 'luxon';
import { csvText } from '@backsight/documents/csv';
import type { Reader } from '@backsight/store/database';
import { registerLines, type RegisterRow } from '@backsight/store/sitework/register';
import type { ReportPerson } from '@backsight/store/sitework/report';
import { localDay } from '../firm/steps/localDay.ts';

type Days = { from: string; to: string };

/** One page; `next` is the cursor of the following one. */
export async function readRegister(reader: Reader, { from, to, cursor, limit }: Days & { cursor: string | null; limit: number }) {
  const rows = await registerLines(reader, { from, to }, { after: cursor === null ? 0 : Number(cursor), limit: limit + 1 });
  const items = rows
    .slice(0, limit)
    .map(({ deliveredAt, ...line }: RegisterRow) => ({ ...line, deliveredAt: deliveredAt?.toISOString() ?? null }));
  return { items, next: rows.length > limit ? String(items.at(-1)!.no) : null };
}

const named = (people: readonly ReportPerson[], did: ReportPerson['did']): string =>
  people
    .filter((one) => one.did === did)
    .map(({ name, license, until }) => (license ? `${name} (${license}, valid until ${until})` : name))
    .join('; ');

const HEADS = [
  'Number',
  'Inspected on',
  'Report date',
  'Revisions',
  'Client',
  'Address',
  'Job',
  'Inspected by',
  'Prepared by',
  'First delivered',
  'Delivered to',
  'SHA-256',
];

/** The same lines as comma-separated text; times are in the firm's zone. */
export async function registerTable(reader: Reader, days: Days, now: Date): Promise<string> {
  const { zone } = await localDay(reader, now);
  const lines = (await registerLines(reader, days)).map((line) => [
    line.no,
    line.inspectedOn,
    line.reportOn,
    line.revisedOn.join('; '),
    line.clients.join('; '),
    line.address,
    line.jobNumber,
    named(line.people, 'inspected'),
    named(line.people, 'prepared'),
    line.deliveredAt === null ? null : DateTime.fromJSDate(line.deliveredAt, { zone }).toFormat('yyyy-MM-dd HH:mm ZZZZ'),
    line.deliveredTo.join('; '),
    line.sha256.join('; '),
  ]);
  return csvText([HEADS, ...lines]);
}
