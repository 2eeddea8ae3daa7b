// What the seal of a site record is taken over.
import type { PhotoRow } from '@backsight/store/sitework/photos';
import type { LoadedRecord } from './loadRecord.ts';
import { fingerprint } from './fingerprint.ts';

/** SHA-256 over the fingerprints of the packages, the items, every entry and the fingerprints of every photo and spoken note; words count by their digest, so that erasing them breaks no seal. */
export const sealOf = ({ record, packages, items, entries, actRows, photos }: LoadedRecord): string =>
  fingerprint({
    record: { id: record.id, visitId: record.visitId, openedAt: record.openedAt.toISOString(), endedAs: record.endedAs },
    packages: packages.map(({ number, sha256 }) => ({ number, sha256 })),
    items: [...items].sort((a, b) => (a.id < b.id ? -1 : 1)),
    entries: [...entries, ...actRows]
      .sort((a, b) => (a.id < b.id ? -1 : 1))
      .map(
        ({
          id,
          packageId,
          stepKey,
          itemId,
          outcome,
          value,
          match,
          noteDigest,
          observedBy,
          writtenBy,
          observedAt,
          observedApprox,
          deviceSeq,
          supersedesId,
          reason,
          recordedAt,
        }) => ({
          id,
          packageId,
          stepKey,
          itemId,
          outcome,
          value,
          match,
          noteDigest,
          observedBy,
          writtenBy,
          observedApprox,
          deviceSeq,
          supersedesId,
          reason,
          observedAt: observedAt.toISOString(),
          recordedAt: recordedAt.toISOString(),
        }),
      ),
    // A record without photos keeps the text that it was sealed over before records took any.
    ...(photos.length === 0 ? {} : { photos: photos.map(sealedPhoto) }),
  });

/** The text of a photo stays as it was before there were spoken notes. */
const sealedPhoto = ({ takenAt, recordedAt, seconds, ...photo }: PhotoRow) => ({
  ...photo,
  ...(seconds === null ? {} : { seconds }),
  takenAt: takenAt.toISOString(),
  recordedAt: recordedAt.toISOString(),
});
