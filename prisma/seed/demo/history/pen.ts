// Writes rows of the past into the tables in memory: ids by the instant, kept texts with their digests.
import { createHash } from 'node:crypto';
import { textDigest } from '@backsight/store/text';
import { insert, type Row, type Tables } from '../memory/tables.ts';

export type Pen = {
  id: (at: Date) => string;
  add: (table: string, row: Row) => void;
  /** Keeps a text. Its salt is drawn from its id: the same days make the same past. */
  keep: (body: string, at: Date) => { id: string; digest: string };
};

export function penFor(tables: Tables, newId: (at: Date) => string): Pen {
  const add = (table: string, row: Row): void => void insert(tables, table, row);
  const keep = (body: string, at: Date) => {
    const id = newId(at);
    const salt = new Uint8Array(createHash('sha256').update(id).digest().subarray(0, 16));
    const digest = textDigest(salt, body);
    add('keptText', { id, salt, body, digest, recordedAt: at });
    return { id, digest };
  };
  return { id: newId, add, keep };
}
