// A sealed site record as a file: the firm's work paper.
import { DateTime } from 'luxon';
import { recordBlocks, type RecordLine, type RecordPaper } from '@backsight/documents/papers/siteRecord';
import type { PdfFile } from '@backsight/documents/pdf/content';
import { pdfOf } from '@backsight/documents/pdf/write';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { GIVEN_TO, type GivenTo } from '@backsight/domain/sitework/afterSeal';
import { sayEntry } from '@backsight/domain/sitework/say';
import { ACT_NAMES, nameOfAct, sayAct, type Naming } from '@backsight/domain/sitework/sayAct';
import { ENDINGS } from '@backsight/domain/sitework/seal';
import { signOffs } from '@backsight/domain/sitework/signOff';
import { CORRECTIONS, placeOf } from '@backsight/domain/sitework/value';
import type { Reader } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';
import { givenOutOf, supplementsOf } from '@backsight/store/sitework/afterSeal';
import { letterhead } from '../firm/steps/letterhead.ts';
import type { Actor } from '../run.ts';
import { isMember, leads, loadRecord, type Entry, type LoadedRecord } from './steps/loadRecord.ts';
import { sealOf } from './steps/sealText.ts';

/** Refusals: not-found, not-on-this-visit, record-not-sealed. */
export async function recordPaper(reader: Reader, input: { recordId: string; actor: Actor }): Promise<Outcome<PdfFile>> {
  const loaded = await loadRecord(reader, input.recordId);
  if (!loaded) return refuse('not-found', { thing: 'site record' });
  if (!isMember(loaded.visit, input.actor) && !leads(input.actor)) return refuse('not-on-this-visit');
  const { record, visit } = loaded;
  if (record.state !== 'sealed') return refuse('record-not-sealed');
  const zone = (await findFirm(reader))!.zone;
  const paper = paperOf(loaded, zone, {
    supplements: await supplementsOf(reader, record.id),
    givenOut: await givenOutOf(reader, record.id),
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

type After = { supplements: Awaited<ReturnType<typeof supplementsOf>>; givenOut: Awaited<ReturnType<typeof givenOutOf>> };

function paperOf(loaded: LoadedRecord, zone: string, after: After): RecordPaper {
  const { record, visit, acts } = loaded;
  const when = (at: Date): string => DateTime.fromJSDate(at, { zone }).setLocale('en-US').toFormat('LLL d, yyyy, h:mm a');
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
    supplements: after.supplements.map(({ happenedAt, by, text }) => ({ at: when(happenedAt), by, text: text ?? 'erased' })),
    givenOut: after.givenOut.map(({ happenedAt, by, toKind, text }) => ({
      at: when(happenedAt),
      by,
      to: `${GIVEN_TO[toKind as GivenTo]}: ${text ?? 'erased'}`,
    })),
  };
}

function namingOf({ items, visit, steps, acts }: LoadedRecord, zone: string): Naming {
  return {
    thing: (id) => items.find((item) => item.id === id)?.label ?? nameOfAct(acts, id) ?? 'something',
    person: (id) => visit.pair.find(({ personId }) => personId === id)?.name ?? 'somebody else',
    step: (key) => steps.find(({ stepKey }) => stepKey === key)?.body.title ?? key,
    clock: (iso) => DateTime.fromISO(iso, { zone, locale: 'en-US' }).toFormat('h:mm a'),
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
