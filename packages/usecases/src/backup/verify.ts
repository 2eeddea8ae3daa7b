// Proof that what is kept is what was written: the chain of the audit trail, the ledger, seals, fingerprints, and every rule of the database.
import { verifyAudit } from '@backsight/store/audit';
import { brokenConstraints } from '@backsight/store/backup/constraints';
import * as kept from '@backsight/store/backup/kept';
import type { Reader } from '@backsight/store/database';
import { readStoredFile } from '@backsight/store/sitework/files';
import { loadRecord } from '../sitework/steps/loadRecord.ts';
import { sealOf } from '../sitework/steps/sealText.ts';

/** `wrong` is empty where it holds; else each thing that does not, in words. */
export type Finding = { what: string; looked: number; wrong: string[] };
export type VerifyAsk = { reader: Reader; dataDir: string; say: (line: string) => void };

const MOST_TOLD = 20;

/** Looks at everything, and says each line when it is known. */
export async function verify({ reader, dataDir, say }: VerifyAsk): Promise<Finding[]> {
  const findings: Finding[] = [];
  for (const look of [audit, ledger, texts, records, (r: Reader) => files(r, dataDir), rules, guards]) {
    const found = await look(reader);
    findings.push(found);
    const { what, looked, wrong } = found;
    say(`${wrong.length === 0 ? 'holds' : 'DOES NOT HOLD'}: ${what} (${looked.toLocaleString('en-US')})`);
    for (const line of wrong.slice(0, MOST_TOLD)) say(`  ${line}`);
    if (wrong.length > MOST_TOLD) say(`  and ${wrong.length - MOST_TOLD} more`);
  }
  return findings;
}

async function audit(reader: Reader): Promise<Finding> {
  const { sealed, brokenAt } = await verifyAudit(reader);
  return { what: 'chain of the audit trail', looked: sealed, wrong: brokenAt === null ? [] : [`broken at seal ${brokenAt}`] };
}

async function ledger(reader: Reader): Promise<Finding> {
  const { entries, unbalanced } = await kept.unbalancedEntries(reader);
  return { what: 'entries of the ledger are balanced', looked: entries, wrong: unbalanced.map((id) => `entry ${id}`) };
}

async function texts(reader: Reader): Promise<Finding> {
  const { texts: many, changed } = await kept.changedTexts(reader);
  return { what: 'words fit the digests that the records keep of them', looked: many, wrong: changed.map((id) => `text ${id}`) };
}

async function records(reader: Reader): Promise<Finding> {
  const ids = await kept.sealedRecords(reader);
  const wrong: string[] = [];
  for (const id of ids) {
    const loaded = (await loadRecord(reader, id))!;
    if (sealOf(loaded) !== loaded.record.sealSha256) wrong.push(`site record ${id}`);
  }
  return { what: 'sealed site records fit their seals', looked: ids.length, wrong };
}

async function files(reader: Reader, dataDir: string): Promise<Finding> {
  const all = await kept.fileFingerprints(reader);
  const wrong: string[] = [];
  for (const sha256 of all) {
    const found = await readStoredFile(dataDir, sha256).catch((error: NodeJS.ErrnoException) => error);
    if (found instanceof Error)
      wrong.push(`file ${sha256} ${'code' in found && found.code === 'ENOENT' ? 'is not there' : 'was changed or cannot be read'}`);
  }
  return { what: 'stored files are there and fit their fingerprints', looked: all.length, wrong };
}

async function rules(reader: Reader): Promise<Finding> {
  const { rules: many, broken } = await brokenConstraints(reader, await kept.tableNames(reader));
  return {
    what: 'checks, foreign keys and unique columns',
    looked: many,
    wrong: Object.entries(broken).map(([name, n]) => `${name}: ${n} rows`),
  };
}

async function guards(reader: Reader): Promise<Finding> {
  const { guards: many, asleep } = await kept.guardsAsleep(reader);
  return { what: 'triggers, indexes and rules of the database are in force', looked: many, wrong: asleep };
}
