// Starting and recording over HTTP, for the tests of the site record.
import { randomUUID } from 'node:crypto';
import type { MemberRecord, NewEntry, SiteStep } from '@backsight/contract/sitework';
import { actKey, type ActWords, type SiteAct } from '@backsight/domain/sitework/act';
import { placeOf } from '@backsight/domain/sitework/value';
import type { TestApi } from '../../support/http.ts';
import { CAST, type CastName } from '../../support/cast.ts';

let counter = 0;

/** Starts a visit with the items that are suggested, but with no others of a kind that is named besides; answers the record's id. */
export async function start(
  api: TestApi,
  visitId: string,
  who: CastName = 'anna',
  extra: { kind: string; label: string }[] = [],
): Promise<string> {
  const before = await api.send(who, 'GET', `/api/visits/${visitId}/start`);
  const suggested = before.body.items.filter(({ kind }: { kind: string }) => !extra.some((one) => one.kind === kind));
  const items = [...suggested, ...extra].map((item: object) => ({ ...item, id: randomUUID() }));
  const acknowledged = before.body.acknowledgements.map(({ personId, revisionId }: { personId: string; revisionId: string }) => ({
    personId,
    revisionId,
  }));
  const opened = await api.send(who, 'POST', `/api/visits/${visitId}/record`, {
    body: { id: randomUUID(), items, systems: [], acknowledged },
  });
  if (opened.status !== 201) throw new Error(JSON.stringify(opened.body));
  return opened.body.id;
}

export const recordOf = async (api: TestApi, who: CastName, id: string): Promise<MemberRecord> =>
  (await api.send(who, 'GET', `/api/records/${id}`)).body as MemberRecord;

export const stepOf = (record: MemberRecord, key: string, itemId?: string): SiteStep => {
  const step = record.steps.find((s) => s.stepKey === key && (itemId === undefined || s.itemId === itemId));
  if (!step) throw new Error(`no step ${key}`);
  return step;
};

/** An entry that fits what the step asks for. */
export function answer(step: SiteStep, who: CastName, more: Partial<NewEntry> = {}): NewEntry {
  const asked = step.evidence;
  const evidence: NewEntry['evidence'] =
    asked.kind === 'reading'
      ? { kind: 'reading', value: asked.expectedFrom ?? asked.expectedTo ?? 1, unit: asked.unit }
      : asked.kind === 'difference'
        ? { kind: 'difference', first: 0, second: asked.expectedFrom ?? 1, unit: asked.unit }
        : asked.kind === 'count'
          ? { kind: 'count', count: 4 }
          : asked.kind === 'choice'
            ? { kind: 'choice', option: asked.options[0]!.key }
            : asked.kind === 'photo'
              ? { kind: 'photo', without: 'cannot_show' }
              : { kind: asked.kind };
  counter += 1;
  return {
    id: randomUUID(),
    packageId: step.packageId,
    stepKey: step.stepKey,
    itemId: step.itemId,
    outcome: 'done',
    evidence,
    reason: null,
    note: asked.kind === 'note' ? 'as seen' : null,
    observedBy: CAST[who].id,
    observedAt: '2026-05-12T15:30:00Z',
    observedApprox: false,
    deviceSeq: counter,
    corrects: null,
    ...more,
  };
}

export const enter = (api: TestApi, who: CastName, id: string, entries: NewEntry[]) =>
  api.send(who, 'POST', `/api/records/${id}/entries`, { body: { entries } });

/** An act of the pair besides the steps. */
export function act(record: MemberRecord, who: CastName, what: SiteAct, words: ActWords = {}, more: Partial<NewEntry> = {}): NewEntry {
  counter += 1;
  return {
    id: randomUUID(),
    packageId: record.steps[0]!.packageId,
    stepKey: actKey(what.do),
    itemId: null,
    outcome: 'done',
    evidence: null,
    reason: null,
    note: null,
    observedBy: CAST[who].id,
    observedAt: '2026-05-12T15:30:00Z',
    observedApprox: false,
    deviceSeq: counter,
    corrects: null,
    act: what,
    words,
    ...more,
  };
}

/** Sends one act; throws when it is not stored. Answers its id and what the service said besides. */
export async function does(api: TestApi, who: CastName, id: string, what: SiteAct, words: ActWords = {}) {
  const entry = act(await recordOf(api, who, id), who, what, words);
  const { body } = await enter(api, who, id, [entry]);
  const [result] = body.results ?? [];
  if (!result?.stored) throw new Error(JSON.stringify(result ?? body));
  return { id: entry.id, warnings: result.warnings.map(({ code }: { code: string }) => code) as string[] };
}

/** Each of the pair says that the record is as they saw it. */
export async function signOff(api: TestApi, id: string, pair: readonly CastName[] = ['anna', 'ben']): Promise<void> {
  for (const who of pair) await does(api, who, id, { do: 'signed_off', from: '2026-05-12T15:00:00Z', until: '2026-05-12T18:00:00Z' });
}

/** Everything that still misses, recorded and signed off by both. */
export async function recordAll(api: TestApi, id: string, pair: readonly [CastName, CastName] = ['anna', 'ben']): Promise<void> {
  const record = await recordOf(api, pair[0], id);
  const recorded = new Set(record.entries.map(placeOf));
  for (const who of pair) {
    const mine = record.steps.filter((s) => s.partnerCheck || (who === pair[s.position % 2] && !recorded.has(placeOf(s))));
    for (let at = 0; at < mine.length; at += 50) {
      const sent = await enter(
        api,
        who,
        id,
        mine.slice(at, at + 50).map((s) => answer(s, who)),
      );
      const no = sent.body.results?.find((r: { stored: boolean }) => !r.stored);
      if (sent.status !== 201 || no) throw new Error(JSON.stringify(no ?? sent.body));
    }
  }
  await signOff(api, id, pair);
}
