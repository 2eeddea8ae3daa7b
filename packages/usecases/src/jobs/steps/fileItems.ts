// What of a job's file an owner may hold back by hand, one by one.
import type { FileItem } from '@backsight/domain/jobs/file';
import { KINDS, type Kind } from '@backsight/domain/callbacks/words';
import type { Reader } from '@backsight/store/database';
import { findEvidence } from '@backsight/store/fees/evidence';
import type { FileFacts } from '@backsight/store/jobs/file';
import { reportsOfJob } from '@backsight/store/sitework/report';
import { sayIn } from './fileParts.ts';

/** Papers, mail, talks, photos and callbacks that go into the file of whoever asks. */
export async function itemsOf(reader: Reader, facts: FileFacts, isOwner: boolean): Promise<FileItem[]> {
  const say = sayIn(facts.zone);
  const { agreements, contacts } = await findEvidence(reader, facts.jobId);
  const reports = await reportsOfJob(reader, facts.jobId);
  return [
    ...agreements.map(({ id, issuedAt }) => ({ key: `agreement ${id}`, what: `Agreement issued ${say(issuedAt)}` })),
    ...reports.toReversed().map(({ id, version }) => ({ key: `report ${id}`, what: `Report, version ${version}` })),
    ...(isOwner
      ? facts.photos.map(({ sha256, step, takenAt }) => ({
          key: `photo ${sha256}`,
          what: `Photo or spoken note at ${step}, ${say(takenAt)}`,
        }))
      : []),
    ...facts.mails.map(({ id, at, to }) => ({ key: `mail ${id}`, what: `Mail of ${say(at)} to ${to}` })),
    ...contacts.map(({ id, at, who, channel }) => ({
      key: `contact ${id}`,
      what: `${channel === 'doorstep' ? 'Talk at the door' : channel === 'text' ? 'Text' : 'Call'} of ${say(at)} with ${who}`,
    })),
    ...facts.callbacks
      .filter(({ ownerOnly }) => !ownerOnly)
      .map(({ id, number, kind }) => ({ key: `callback ${id}`, what: `Callback ${number}: ${KINDS[kind as Kind]}` })),
  ];
}

/** The facts without what is held back by hand; agreements, reports and talks are left out where they are read. */
export const without = (facts: FileFacts, left: ReadonlySet<string>): FileFacts => ({
  ...facts,
  mails: facts.mails.filter(({ id }) => !left.has(`mail ${id}`)),
  photos: facts.photos.filter(({ sha256 }) => !left.has(`photo ${sha256}`)),
  callbacks: facts.callbacks.filter(({ id }) => !left.has(`callback ${id}`)),
});
