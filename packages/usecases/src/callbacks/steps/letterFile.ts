// What the file of a callback holds for a letter: names, address, numbers, days, what was said and what was decided. Never an opinion.
import { DateTime } from 'luxon';
import { appealUntil, APPEAL_RESULTS, checkDay, isCheckedAfter, mayAppeal } from '@backsight/domain/callbacks/after';
import { amountsIn, decisionWords, LINK_PLACE, processWords, type LetterName } from '@backsight/domain/callbacks/letters';
import { SPEAKERS, type RemedyKind, type Speaker } from '@backsight/domain/callbacks/words';
import { appointmentInWords } from '@backsight/domain/agreements/facts';
import { comesWords } from '@backsight/domain/agreements/notices';
import type { Values } from '@backsight/domain/mail/letter';
import { clearancesOf, remediesOf, wordsOf, type CallbackRow } from '@backsight/store/callbacks';
import { afterRules, closedAt } from '@backsight/store/callbacks/after';
import { appealsOf } from '@backsight/store/callbacks/appeals';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import { decisionToldAt, visitToTell } from '@backsight/store/callbacks/letters';
import type { Reader } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';
import { findParties } from '@backsight/store/jobs/parties';
import { dayAt } from './day.ts';

export type LetterFile = Awaited<ReturnType<typeof loadLetterFile>>;

/** Everything that any letter about a callback may draw on. */
export async function loadLetterFile(reader: Reader, callback: CallbackRow, now: Date) {
  const job = (await findJobForCallback(reader, callback.jobId))!;
  const [party] = callback.partyId === null ? [] : await findParties(reader, [callback.partyId]);
  const remedies = (await remediesOf(reader, callback.id)).map((one) => ({ ...one, kind: one.kind as RemedyKind }));
  const words = (await wordsOf(reader, callback.textId)) ?? '';
  const [told, closed] = [await decisionToldAt(reader, callback.id), await closedAt(reader, callback.id)];
  const day = (at: Date | null): string | null => (at === null ? null : dayAt(at, job.zone));
  return {
    callback,
    job,
    firm: (await findFirm(reader))!,
    to: { id: party?.id ?? null, name: party?.name ?? `the ${SPEAKERS[callback.speaker as Speaker]}`, email: party?.email ?? null },
    words,
    remedies,
    clearances: await clearancesOf(reader, callback.id),
    visit: await visitToTell(reader, callback.id),
    appeals: await appealsOf(reader, callback.id),
    rules: await afterRules(reader),
    today: dayAt(now, job.zone),
    receivedOn: dayAt(callback.receivedAt, job.zone),
    toldOn: day(told),
    closedOn: day(closed),
  };
}

/** Amounts that are no offer: paid already, or named by whoever complained. */
export const notOffered = ({ remedies, words, callback }: LetterFile): number[] => [
  ...remedies.filter(({ state }) => state === 'done').map(({ cents }) => cents),
  ...amountsIn(`${words}\n${callback.remedySought}`),
];

const inWords = (day: string): string => DateTime.fromISO(day, { zone: 'utc', locale: 'en-US' }).toFormat('LLLL d, yyyy');
const LONGEST_QUOTE = 400;
const quoted = (words: string): string => `"${words.length > LONGEST_QUOTE ? `${words.slice(0, LONGEST_QUOTE).trimEnd()} ...` : words}"`;

export type Draft = { letter: LetterName; way: 'mail' | 'paper'; names: boolean; publicUrl: string };

/** The values of the fields of a letter. `names`: who comes is named, because the writer chose so. */
export function valuesOf(file: LetterFile, { letter, way, names, publicUrl }: Draft): Values {
  const { callback, job, firm, to } = file;
  const linked = way === 'mail' && to.id !== null;
  return {
    name: to.name.replace(/^the /, ''),
    firm: firm.name,
    firm_phone: firm.phone,
    address: `${job.address}, ${job.town}`,
    number: String(callback.number),
    process: processWords(publicUrl),
    said: `On ${inWords(file.receivedOn)} you told us this about ${job.address}, ${job.town}: ${quoted(file.words)}`,
    decision: decisionWords(file.remedies),
    appeal: appealWords(file, letter, { linked, publicUrl }),
    ...(letter === 'visit' && file.visit ? visitValues(file, file.visit, names) : {}),
    closed: inWords(file.closedOn ?? file.today),
    check: isCheckedAfter(callback.kind)
      ? `On ${inWords(checkDay(file.closedOn ?? file.today, file.rules))} or soon after we will ask you whether it held.`
      : '',
    ask: linked ? `One question, answered with one press: how well did we handle it? ${LINK_PLACE}` : '',
    ...(letter === 'appeal' ? resultValues(file) : {}),
  };
}

const visitValues = ({ job, callback }: LetterFile, visit: NonNullable<LetterFile['visit']>, names: boolean): Values => ({
  appointment: appointmentInWords({ startsAt: visit.startsAt.toISOString(), endsAt: visit.endsAt.toISOString() }, job.zone),
  coming: names ? comesWords(visit.pair) : `${visit.pair.length === 1 ? 'One of our inspectors comes' : 'Two of our inspectors come'}.`,
  look_at: [callback.system.replaceAll('_', ' '), callback.place].filter((word) => word !== '').join(', '),
});

/** A decision that is being told can be appealed from today on; one that was told, until its day. */
function appealWords(file: LetterFile, letter: LetterName, { linked, publicUrl }: { linked: boolean; publicUrl: string }): string {
  const toldOn = letter === 'decision' ? file.today : file.toldOn;
  const appealedOn = file.appeals[0] ? dayAt(file.appeals[0].receivedAt, file.job.zone) : null;
  const may = mayAppeal(
    { ...file.callback, today: file.today, toldOn, appealedOn, appealOpen: file.appeals.some(({ result }) => result === null) },
    file.rules,
  );
  if (!may.ok || toldOn === null) return '';
  const until = inWords(appealUntil(toldOn, file.rules));
  const where =
    linked && letter === 'decision'
      ? `Tell us here: ${LINK_PLACE}`
      : linked
        ? 'You find that under the same link.'
        : `How: ${publicUrl}/complaints`;
  return `You do not agree with what we decided? Until ${until} you may ask an owner of our firm to look at it again. ${where}`;
}

function resultValues({ appeals, job }: LetterFile): Values {
  const decided = appeals.find(({ result }) => result !== null);
  if (!decided) return {};
  const by = `${decided.decidedBy} decided this.`;
  const involved = `${decided.decidedBy}, who decided this, had to do with the matter before. Looked at from outside: ${decided.reviewer}`;
  return {
    received: inWords(dayAt(decided.receivedAt, job.zone)),
    result: `We looked again, and ${APPEAL_RESULTS[decided.result!]}.`,
    reasons: `${decided.resultWords ?? ''}\n\n${decided.involved ? involved : by}`.trim(),
  };
}
