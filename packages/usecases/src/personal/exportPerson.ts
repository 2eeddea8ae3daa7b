// Everything about one person in one file, for whoever asks what the firm keeps of them.
import { personExport } from '@backsight/documents/personExport';
import { naming, tableOf } from '@backsight/domain/personal/inventory';
import { NOT_EXPORTED, type Subject } from '@backsight/domain/personal/erasure';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';
import * as store from '@backsight/store/personal/export';
import { findPeople } from '@backsight/store/personal/people';
import { readStoredFile } from '@backsight/store/sitework/files';
import type { Act, Work } from '../run.ts';

export const searchPeople = (reader: Reader, words: string) => findPeople(reader, words);

type Ask = { subject: Subject; id: string; directory: string };
type Papers = { name: string; sha256: string; bytes: Uint8Array }[];
export type Exported = { name: string; bytes: Uint8Array };

/** Refusals: not-found. */
export const exportPerson: Act<Ask, Exported> = { operation: 'personal.export', run: make };

async function make(work: Work, ask: Ask): Promise<Outcome<Exported>> {
  const { tx, now } = work;
  const who = await store.exportedPerson(tx, ask.subject, ask.id);
  if (!who) return refuse('not-found', { thing: 'person' });
  const tables = await store.exportRows(tx, { ...ask, ...who });
  const papers = await papersOf(tx, ask, tables);
  const firm = (await findFirm(tx))?.name ?? '';
  const bytes = personExport({ firm, about: who.name, made: now.toISOString(), tables, papers, notHere: NOT_EXPORTED });
  const rows = tables.reduce((sum, table) => sum + table.rows.length, 0);
  await work.did(ask.subject === 'party' ? 'party' : 'person', ask.id, { exported: true, rows, papers: papers.length });
  return accept({ name: `personal-data-${now.toISOString().slice(0, 10)}.zip`, bytes });
}

/** Sealed papers, and every file that one of the rows names; what cannot be read is left out, its fingerprint stands in the rows. */
async function papersOf(reader: Reader, ask: Ask, tables: readonly store.ExportTable[]): Promise<Papers> {
  const sealed = ask.subject === 'party' ? await store.exportedPapers(reader, ask.id) : [];
  const named = tables.flatMap(({ name, rows }) =>
    naming(tableOf(name)!, 'file').flatMap(({ column }) => rows.flatMap((row) => (typeof row[column] === 'string' ? [row[column]] : []))),
  );
  const papers: Papers = sealed.map(({ content, ...paper }) => ({ ...paper, bytes: new Uint8Array(content) }));
  for (const file of await store.storedNames(reader, [...new Set(named)])) {
    const bytes = await readStoredFile(ask.directory, file.sha256).catch(() => null);
    if (bytes) papers.push({ ...file, bytes: new Uint8Array(bytes) });
  }
  return papers;
}
