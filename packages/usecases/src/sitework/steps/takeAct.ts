// Takes in one act of the pair and does what follows from it: return times, closed steps, alarms, a callback of the same hour.
import { refuse, type Outcome, type Refusal, type Warning } from '@backsight/domain/shared/outcome';
import { checkAct } from '@backsight/domain/sitework/actCheck';
import type { ActWords, SiteAct } from '@backsight/domain/sitework/act';
import { addEntry } from '@backsight/store/sitework';
import { cameOut, watchReturn } from '@backsight/store/sitework/watch';
import { keepText } from '@backsight/store/text';
import type { Work } from '../../run.ts';
import { closeSteps } from './closeSteps.ts';
import { actOf, known, type LoadedRecord } from './loadRecord.ts';
import { toCome } from './namedPhotos.ts';
import { recordDamage } from './recordDamage.ts';
import { tellOfDanger } from './tellOfDanger.ts';

export type ActInput = {
  id: string;
  packageId: string;
  stepKey: string;
  act: SiteAct;
  words: ActWords;
  observedBy: string;
  observedAt: string;
  observedApprox: boolean;
  deviceSeq: number;
  photos?: readonly string[];
  device?: { deviceId: string | null; writtenAt: Date | null; clockOffsetMs: number | null };
};

/** Refusals: those of `checkAct`, package-unknown, observer-not-on-visit, partner-check-own-hand. */
export async function takeAct(work: Work, loaded: LoadedRecord, given: ActInput, writer: string): Promise<Outcome<Warning[]>> {
  const input = { ...given, act: renamed(given.act, loaded.aliases) };
  const place = placeRule(loaded, input, writer);
  if (place) return place;
  const checked = checkAct(input, {
    acts: loaded.acts,
    items: loaded.items,
    pair: loaded.pair,
    stepKeys: new Set(loaded.steps.map(({ stepKey }) => stepKey)),
    photosToCome: new Set(toCome(loaded).map(({ id }) => id)),
  });
  if (!checked.ok) return checked;
  await save(work, loaded, input, writer);
  const more = await follow(work, loaded, input, writer);
  return { ok: true, value: more, warnings: [...checked.warnings, ...more] };
}

/** Things by the ids under which the record knows them: a second phone may have given them others. */
function renamed(act: SiteAct, aliases: LoadedRecord['aliases']): SiteAct {
  const known = (id: string): string => aliases.get(id) ?? id;
  if ('device' in act) return { ...act, device: known(act.device) };
  return 'item' in act && act.item !== null ? { ...act, item: known(act.item) } : act;
}

function placeRule({ packages, pair }: LoadedRecord, input: ActInput, writer: string): Refusal | null {
  if (!packages.some(({ id }) => id === input.packageId)) return refuse('package-unknown', {}, 'packageId');
  if (!pair.includes(input.observedBy)) return refuse('observer-not-on-visit', {}, 'observedBy');
  return input.act.do === 'signed_off' && input.observedBy !== writer ? refuse('partner-check-own-hand', {}, 'observedBy') : null;
}

/** What happened to a person who was hurt stands with the callback, which only an owner sees. */
const wordsKept = ({ act, words }: ActInput): ActWords => (act.do === 'damage' && act.what === 'injury' ? {} : words);

async function save(work: Work, loaded: LoadedRecord, input: ActInput, writer: string): Promise<void> {
  const { id, packageId, stepKey, act, observedBy, observedApprox, deviceSeq } = input;
  const words = wordsKept(input);
  const note = Object.keys(words).length === 0 ? null : JSON.stringify(words);
  const textId = note === null ? null : await keepText(work.tx, work.newId(), note, work.now);
  const row = {
    id,
    packageId,
    stepKey,
    itemId: null,
    outcome: 'done' as const,
    reason: null,
    value: { evidence: null, act, ...(input.photos?.length ? { photos: [...input.photos] } : {}) },
    match: 'not_asked' as const,
    observedBy,
    observedApprox,
    deviceSeq,
    writtenBy: writer,
    ...input.device,
    observedAt: new Date(input.observedAt),
    supersedesId: null,
  };
  await addEntry(work.tx, { ...row, recordId: loaded.record.id, textId, at: work.now });
  const entry = known({ ...row, note, noteDigest: null, recordedAt: work.now });
  loaded.actRows.push(entry);
  loaded.acts.push(actOf(entry));
}

/** What follows from it, once: the act is stored in the same transaction. Answers what the pair should hear. */
async function follow(work: Work, loaded: LoadedRecord, input: ActInput, writer: string): Promise<Warning[]> {
  const { act, id, observedBy: personId } = input;
  const recordId = loaded.record.id;
  if (act.do === 'went_in')
    await watchReturn(work.tx, { entryId: id, recordId, personId, place: act.place, backBy: new Date(act.backBy), recordedAt: work.now });
  if (act.do === 'came_out') await cameOut(work.tx, act.of, new Date(input.observedAt));
  if (act.do === 'hazard_look' || act.do === 'danger') await closeSteps(work, loaded, { id, act, person: writer });
  if (act.do === 'danger') await tellOfDanger(work, loaded, { id, act, words: input.words, at: new Date(input.observedAt) });
  return act.do === 'damage' ? recordDamage(work, loaded, { id, act, words: input.words }) : [];
}
