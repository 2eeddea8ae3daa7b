// Sending photos and spoken notes of a record over HTTP, and looking at them, for their tests.
import type { RecordPhoto } from '@backsight/contract/sitework/photos';
import type { CastName } from '../../support/cast.ts';
import type { TestApi } from '../../support/http.ts';
import { recordOf } from './support.ts';

type Given = { id: string; entryId: string; file: Buffer; record?: string };

/** Calls about the record that `recordId` answers by then. */
export function fileCalls(api: TestApi, recordId: () => string) {
  const post = (who: CastName, kind: string, { id, entryId, file, record = recordId() }: Given, more: object) =>
    api.send(who, 'POST', `/api/records/${record}/${kind}`, { body: { id, entryId, original: file.toString('base64'), ...more } });
  return {
    send: (who: CastName, given: Given) => post(who, 'photos', given, { takenAt: '2026-05-12T15:10:00Z', name: 'IMG_1.jpg' }),
    look: (who: CastName, id: string, query = '') => api.send(who, 'GET', `/api/records/${recordId()}/photos/${id}${query}`),
    photosFor: async (who: CastName): Promise<Record<string, RecordPhoto>> =>
      Object.fromEntries((await recordOf(api, who, recordId())).photos.map((one) => [one.id, one])),
    /** A spoken note of eleven seconds. */
    speak: (who: CastName, given: Given) => post(who, 'spoken-notes', given, { takenAt: '2026-05-12T15:12:00Z', seconds: 11 }),
    hear: (who: CastName, id: string) => api.send(who, 'GET', `/api/records/${recordId()}/spoken-notes/${id}`),
    spokenFor: async (who: CastName) => new Map((await recordOf(api, who, recordId())).spoken.map((one) => [one.id, one])),
  };
}
