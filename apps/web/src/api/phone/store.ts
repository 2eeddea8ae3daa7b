// What this phone keeps: replies that were read, acts and photos that are not sent yet, signatures, what is half typed, and each person's
// device counter. Every row belongs to a person.
import { openDB, type DBSchema, type IDBPDatabase, type StoreNames } from 'idb';
import type { agreementsRoutes } from '@backsight/contract/agreements';
import type { BodyOf } from '@backsight/contract/route';
import type { NewEntry, SiteItem, SiteStep } from '@backsight/contract/sitework';

/** What was done here and the service has to be told, in the order of `n`. */
export type Told =
  | { kind: 'entry'; entry: NewEntry }
  /**
   * A request of a creating route, sent once under the row's id as its key. `opens`: everything else of the record waits for it; it says
   * when it is sent, and the service takes it in once however often it comes. `adds`: things and steps that the screen shows meanwhile.
   * `does`: what becomes of the visit by it.
   */
  | {
      kind: 'act';
      path: string;
      body: object;
      opens?: true;
      does?: 'end' | 'end_early' | 'seal';
      adds?: { items: SiteItem[]; steps: SiteStep[] };
    };

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
  /** The service's sentence, when it will not take it as it is, or not yet. */
  why?: string;
};

/** A reply as it was read last. `today`: stays only for the day on which it was read. */
export type KeptReply = { personId: string; name: string; key: readonly unknown[]; data: unknown; at: number; today?: true };
export type Signing = BodyOf<typeof agreementsRoutes.signOnSite>;
/**
 * `refused`: the service's sentence, when it will not take the signature as it is. `late`: it was kept, but a newer agreement had taken the
 * place of the one that was signed; shown until somebody has read it.
 */
export type WaitingSigning = { signerId: string; jobId: string; signer: string; body: Signing; refused?: string; late?: true };
export type KeptSigning = WaitingSigning & { personId: string };
export type KeptDraft = { name: string; value: unknown; at: number };
/**
 * A photo or spoken note taken here that the service has not confirmed. `place`: where in the record it was taken; `entryId`: the entry that names it, once
 * that is recorded.
 */
export type KeptFile = {
  id: string;
  personId: string;
  recordId: string;
  place: string;
  entryId: string | null;
  /** By this phone's clock. */
  takenAt: string;
  /** The file as it was taken. */
  original: Blob;
  /** taken: its entry is not recorded yet. */
  state: 'taken' | 'waiting' | 'refused';
  /** The service's sentence, when it will not take it as it is. */
  why?: string;
};
/** `jpeg` of HEIC alone; `small` is for the screen. */
export type KeptPhoto = KeptFile & { name: string; jpeg: Blob | null; small: Blob; seconds?: undefined };
export type KeptSpoken = KeptFile & { seconds: number };
export type Device = { personId: string; deviceId: string; seq: number };

interface Shape extends DBSchema {
  outbox: { key: number; value: Row; indexes: { personId: string } };
  replies: { key: [string, string]; value: KeptReply };
  devices: { key: string; value: Device };
  /** What is half typed, by person and form. */
  drafts: { key: string; value: KeptDraft };
  /** Signatures that were taken at the door. */
  signings: { key: [string, string]; value: KeptSigning };
  photos: { key: string; value: KeptPhoto | KeptSpoken };
  /** Who was signed in last: the only key is 'who'. */
  signedIn: { key: string; value: string };
}

/** Stores are only ever added: a window with an older version of the app goes on working on a newer database. */
const VERSION = 3;

let opened: Promise<IDBPDatabase<Shape>> | undefined;

const stores: { [S in StoreNames<Shape>]: (db: IDBPDatabase<Shape>) => unknown } = {
  outbox: (db) => db.createObjectStore('outbox', { keyPath: 'n', autoIncrement: true }).createIndex('personId', 'personId'),
  replies: (db) => db.createObjectStore('replies', { keyPath: ['personId', 'name'] }),
  devices: (db) => db.createObjectStore('devices', { keyPath: 'personId' }),
  drafts: (db) => db.createObjectStore('drafts', { keyPath: 'name' }),
  signings: (db) => db.createObjectStore('signings', { keyPath: ['personId', 'signerId'] }),
  photos: (db) => db.createObjectStore('photos', { keyPath: 'id' }),
  signedIn: (db) => db.createObjectStore('signedIn'),
};

const open = (version: number | undefined): Promise<IDBPDatabase<Shape>> =>
  openDB<Shape>('backsight', version, {
    upgrade(db) {
      for (const name of Object.keys(stores) as StoreNames<Shape>[]) if (!db.objectStoreNames.contains(name)) stores[name](db);
    },
    terminated: () => (opened = undefined),
    blocking: (_now, _next, event) => {
      opened = undefined; // the next one who asks gets it as the newer window made it
      (event.target as IDBDatabase).close();
    },
  });

/** The phone's database. Rejects where the browser keeps nothing, for example in a private window that forbids it. */
export function phone(): Promise<IDBPDatabase<Shape>> {
  opened ??= open(VERSION).catch((error: unknown) => {
    if (error instanceof DOMException && error.name === 'VersionError') return open(undefined);
    throw error;
  });
  opened.catch(() => (opened = undefined));
  return opened;
}

/** Written through to the disk: a battery that dies right afterwards loses nothing. */
export const SURE = { durability: 'strict' } as const;
