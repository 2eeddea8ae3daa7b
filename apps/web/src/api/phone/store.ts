// What this phone keeps: replies that were read, acts and photos that are not sent yet, and each person's device counter. Every row belongs to a person.
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { NewEntry, SiteItem, SiteStep } from '@backsight/contract/sitework';

/** What was done here and the service has to be told, in the order of `n`. */
export type Told =
  | { kind: 'entry'; entry: NewEntry }
  /**
   * A request of a creating route, sent once under the row's id as its key. `opens`: everything else of the record waits for it; it says
   * when it is sent, and the service takes it in once however often it comes. `adds`: things and steps that the screen shows meanwhile.
   */
  | { kind: 'act'; path: string; body: object; opens?: true; adds?: { items: SiteItem[]; steps: SiteStep[] } };

export type Row = {
  /** Order on this phone. */
  n: number;
  /** Id of the entry, or key of the request. */
  id: string;
  personId: string;
  recordId: string;
  /** What it is, in words. */
  says: string;
  what: Told;
  /** stored: the service has it; kept until a reply that was asked for afterwards shows it. */
  state: 'waiting' | 'stored' | 'refused';
  /** The service's sentence, when it will not take it as it is. */
  why?: string;
};

/** A reply as it was read last. */
export type KeptReply = { personId: string; name: string; key: readonly unknown[]; data: unknown; at: number };
/**
 * A photo taken here that the service has not confirmed. `place`: where in the record it was taken; `entryId`: the entry that names it, once
 * that is recorded.
 */
export type KeptPhoto = {
  id: string;
  personId: string;
  recordId: string;
  place: string;
  entryId: string | null;
  /** By this phone's clock. */
  takenAt: string;
  name: string;
  /** The file as it was taken. */
  original: Blob;
  /** HEIC alone: the picture as a JPEG. */
  jpeg: Blob | null;
  /** For the screen. */
  small: Blob;
  /** taken: its entry is not recorded yet. */
  state: 'taken' | 'waiting' | 'refused';
  /** The service's sentence, when it will not take it as it is. */
  why?: string;
};
export type Device = { personId: string; deviceId: string; seq: number };

interface Shape extends DBSchema {
  outbox: { key: number; value: Row; indexes: { personId: string } };
  replies: { key: [string, string]; value: KeptReply };
  devices: { key: string; value: Device };
  photos: { key: string; value: KeptPhoto };
  /** Who was signed in last: the only key is 'who'. */
  signedIn: { key: string; value: string };
}

let opened: Promise<IDBPDatabase<Shape>> | undefined;

/** The phone's database. Rejects where the browser keeps nothing, for example in a private window that forbids it. */
export function phone(): Promise<IDBPDatabase<Shape>> {
  opened ??= openDB<Shape>('backsight', 2, {
    upgrade(db, before) {
      if (before < 2) db.createObjectStore('photos', { keyPath: 'id' });
      if (before > 0) return;
      db.createObjectStore('outbox', { keyPath: 'n', autoIncrement: true }).createIndex('personId', 'personId');
      db.createObjectStore('replies', { keyPath: ['personId', 'name'] });
      db.createObjectStore('devices', { keyPath: 'personId' });
      db.createObjectStore('signedIn');
    },
    terminated: () => (opened = undefined),
    blocking: (_now, _next, event) => (event.target as IDBDatabase).close(),
  });
  opened.catch(() => (opened = undefined));
  return opened;
}

/** Written through to the disk: a battery that dies right afterwards loses nothing. */
export const SURE = { durability: 'strict' } as const;
