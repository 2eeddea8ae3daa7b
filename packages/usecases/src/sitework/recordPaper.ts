// A sealed site record as a file: the firm's work paper.
import { DateTime } from 'luxon';
import { recordBlocks, type PhotoLine, type RecordLine, type RecordPaper } from '@backsight/documents/papers/siteRecord';
import type { PdfFile } from '@backsight/documents/pdf/content';
import { pdfOf } from '@backsight/documents/pdf/write';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { GIVEN_TO, type GivenTo } from '@backsight/domain/sitework/afterSeal';
import { sayEntry } from '@backsight/domain/sitework/say';
import { ACT_NAMES } from '@backsight/domain/sitework/act';
import { sayAct, type Naming } from '@backsight/domain/sitework/sayAct';
import { sayNear } from '@backsight/domain/sitework/nearby';
import { ENDINGS } from '@backsight/domain/sitework/endedAs';
import { signOffs } from '@backsight/domain/sitework/signOff';
import { CORRECTIONS, placeOf } from '@backsight/domain/sitework/value';
import type { Reader } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';
import { givenOutOf, supplementsOf } from '@backsight/store/sitework/afterSeal';
import { letterhead } from '../firm/steps/letterhead.ts';
import type { Actor } from '../run.ts';
import { isMember, leads, loadRecord, type Entry, type LoadedRecord } from './steps/loadRecord.ts';
import { namingOf } from './steps/naming.ts';
import { smallCopy } from './steps/photoFiles.ts';
import { photosShown, spokenShown } from './steps/photos.ts';
import { sealOf } from './steps/sealText.ts';

/** Refusals: not-found, not-on-this-visit, record-not-sealed. */
export async function recordPaper(reader: Reader, input: { recordId: string; actor: Actor; directory: string }): Promise<Outcome<PdfFile>> {
  const loaded = await loadRecord(reader, input.recordId);
  if (!loaded) return refuse('not-found', { thing: 'site record' });
  if (!isMember(loaded.visit, input.actor) && !leads(input.actor)) return refuse('not-on-this-visit');
  const { record, visit } = loaded;
  if (record.state !== 'sealed') return refuse('record-not-sealed');
  const zone = (await findFirm(reader))!.zone;
  const after = {
    supplements: await supplementsOf(reader, record.id),
    givenOut: await givenOutOf(reader, record.id),
  };
  const paper = paperOf(loaded, zone, after, {
    photos: await photoLines(loaded, zone, input),
    spoken: spokenLines(loaded, zone, input.actor),
  });
  return accept({
    name: `site-record-job-${visit.jobNumber}.pdf`,
    bytes: await pdfOf({
      ...(await letterhead(reader, record.sealedAt!, visit.jobId)),
      title: `Site record: ${visit.address}`,
      foot: `Work paper, job ${visit.jobNumber}, fingerprint ${record.sealSha256!.slice(0, 16)}`,
      blocks: recordBlocks(paper),
    }),
  });
}

const whenIn =
  (zone: string) =>
  (at: Date): string =>
    DateTime.fromJSDate(at, { zone }).setLocale('en-US').toFormat('LLL d, yyyy, h:mm a');

type After = { supplements: Awaited<ReturnType<typeof supplementsOf>>; givenOut: Awaited<ReturnType<typeof givenOutOf>> };

function paperOf(loaded: LoadedRecord, zone: string, after: After, files: Pick<RecordPaper, 'photos' | 'spoken'>): RecordPaper {
  const { record, visit, acts } = loaded;
  const when = whenIn(zone);
  const naming = namingOf(loaded, zone);
  const signed = signOffs(acts);
  return {
    job: visit.jobNumber,
    address: `${visit.address}, ${visit.town}`,
    people: visit.pair.map(({ personId, name }) => {
      const off = signed.get(personId);
      return { name, times: off ? `${naming.clock(off.from)} to ${naming.clock(off.until)}, signed off` : 'did not sign off' };
    }),
    ended: record.endedAs ? ENDINGS[record.endedAs] : '',
    sealed: when(record.sealedAt!),
    fingerprint: record.sealSha256!,
    holds: sealOf(loaded) === record.sealSha256,
    acts: acts.map((known) => ({
      at: naming.clock(known.at),
      by: naming.person(known.by),
      what: ACT_NAMES[known.act.do],
      words: sayAct(known, naming),
    })),
    systems: [...new Set(loaded.steps.map(({ procedureTitle }) => procedureTitle))].map((system) => ({
      system,
      lines: linesOf(loaded, system, naming),
    })),
    ...files,
    supplements: after.supplements.map(({ happenedAt, by, text }) => ({ at: when(happenedAt), by, text: text ?? 'erased' })),
    givenOut: after.givenOut.map(({ happenedAt, by, toKind, text }) => ({
      at: when(happenedAt),
      by,
      to: `${GIVEN_TO[toKind as GivenTo]}: ${text ?? 'erased'}`,
    })),
  };
}

function linesOf(loaded: LoadedRecord, system: string, naming: Naming): RecordLine[] {
  const counting = new Set(loaded.standing.map(({ id }) => id));
  const said = (entry: Entry, words: string): string =>
    [
      `${words}${entry.match === 'outside' ? ' (outside what is usual)' : entry.match === 'differs' ? ' (differs from the count before)' : ''}`,
      entry.note ?? '',
      entry.value.correction ? `Correction: ${CORRECTIONS[entry.value.correction]}` : '',
      counting.has(entry.id) ? '' : 'Replaced later',
    ]
      .filter((line) => line !== '')
      .join('. ');
  return loaded.steps
    .filter(({ procedureTitle }) => procedureTitle === system)
    .flatMap((step) =>
      loaded.entries
        .filter((entry) => placeOf(entry) === placeOf(step))
        .map((entry) => ({
          step: step.itemId ? `${step.body.title} (${naming.thing(step.itemId)})` : step.body.title,
          answer: said(entry, sayEntry(entry, step.body.evidence)),
          by: naming.person(entry.observedBy),
          at: `${entry.observedApprox ? 'about ' : ''}${naming.clock(entry.observedAt.toISOString())}`,
          revision: String(step.revisionNumber),
        })),
    );
}

type Asked = { actor: Actor; directory: string };

/** What an entry was made at: its step, with the thing, or its act. */
function placeNamed(loaded: LoadedRecord, naming: Naming, entryId: string): string {
  const entry = [...loaded.entries, ...loaded.actRows].find(({ id }) => id === entryId)!;
  const of = entry.value.act ? ACT_NAMES[entry.value.act.do] : naming.step(entry.stepKey);
  return entry.itemId ? `${of} (${naming.thing(entry.itemId)})` : of;
}

/** The spoken notes, which are listened to on the record. */
function spokenLines(loaded: LoadedRecord, zone: string, actor: Actor): string[] {
  const naming = namingOf(loaded, zone);
  return spokenShown(loaded, actor).map((note) => {
    const words =
      note.state === 'here'
        ? `${note.seconds} seconds, ${whenIn(zone)(new Date(note.takenAt!))}, by ${naming.person(note.by)}. SHA-256 ${note.sha256}.`
        : `It will not come: ${note.lost ?? 'nobody said why'}.`;
    return `${placeNamed(loaded, naming, note.entries[0]!)}. ${note.mayLook ? words : 'With the owner.'}`;
  });
}

/** The photos in the order of the entries that name them; those of somebody who was hurt only for the owner. */
async function photoLines(loaded: LoadedRecord, zone: string, { actor, directory }: Asked): Promise<PhotoLine[]> {
  const when = whenIn(zone);
  const naming = namingOf(loaded, zone);
  const lines: PhotoLine[] = [];
  for (const photo of photosShown(loaded, actor)) {
    const what = placeNamed(loaded, naming, photo.entries[0]!);
    if (!photo.mayLook) lines.push({ what, words: 'With the owner.', jpeg: null });
    else if (photo.state !== 'here')
      lines.push({ what, words: `The photo will not come: ${photo.lost ?? 'nobody said why'}.`, jpeg: null });
    else {
      const jpeg = await smallCopy(directory, photo.copySha256!);
      const facts = `${when(new Date(photo.takenAt!))}, by ${naming.person(photo.by)}; ${sayNear(photo.near!, photo.nearLimitM!)}. SHA-256 of the original ${photo.originalSha256}, of the copy ${photo.copySha256}.`;
      lines.push({ what, words: jpeg ? facts : `${facts} The file is missing on the service, or is not what it was.`, jpeg });
    }
  }
  return lines;
}
