// A second phone started the same visit without signal: what it named and nobody else did joins the record, the rest stands for what is there.
import { accept, type Outcome } from '@backsight/domain/shared/outcome';
import type { RecordItem } from '@backsight/domain/sitework/items';
import { makePackage, type FrozenRevision, type PackageContext } from '@backsight/domain/sitework/package';
import { placeOf } from '@backsight/domain/sitework/value';
import { addItems } from '@backsight/store/sitework';
import { addAliases } from '@backsight/store/sitework/offline';
import type { Work } from '../../run.ts';
import { basisOf, issuePackage, type PackageBasis } from './issuePackage.ts';
import { loadRecord, type LoadedRecord } from './loadRecord.ts';

type Frozen = { revisions: readonly FrozenRevision[]; context: Omit<PackageContext, 'items'> };

/** Items of one kind and name are one thing. Steps at places that the record does not have yet come in a further package. */
export async function joinRecord(
  work: Work,
  recordId: string,
  items: readonly RecordItem[],
  frozen: Frozen,
): Promise<Outcome<{ id: string; steps: number }>> {
  const loaded = (await loadRecord(work.tx, recordId))!;
  const mine = loaded.record.state === 'sealed' ? [] : await takeItems(work, loaded, items);
  const known = new Set(loaded.steps.map(placeOf));
  const steps = makePackage(frozen.revisions, { ...frozen.context, items: mine }, loaded.steps.at(-1)?.position ?? 0).filter(
    ({ step, item }) => !known.has(placeOf({ stepKey: step.key, itemId: item?.id ?? null })),
  );
  if (loaded.record.state === 'open' && steps.length > 0) {
    const { because: _because, ...basis } = loaded.packages[0]!.body as PackageBasis & { because: unknown };
    await issuePackage(work, {
      recordId,
      number: loaded.packages.length + 1,
      basis: { ...basis, revisions: basisOf(frozen.revisions) },
      steps,
      startDespiteGate: loaded.packages[0]!.startDespiteGate,
    });
  }
  await work.did('site-record', recordId, { joined: true, items: mine.length, steps: steps.length });
  return accept({ id: recordId, steps: loaded.steps.length + steps.length });
}

/** The items of the second phone as the record knows them; new ones are added. */
export async function takeItems(work: Work, loaded: LoadedRecord, items: readonly RecordItem[]): Promise<RecordItem[]> {
  const here = (item: RecordItem): RecordItem | undefined =>
    loaded.items.find(({ id }) => id === item.id) ?? loaded.items.find(({ kind, label }) => kind === item.kind && label === item.label);
  const fresh = items.filter((item) => here(item) === undefined);
  const aliases = items.flatMap((item) => {
    const known = here(item);
    return known && known.id !== item.id ? [{ id: item.id, standsFor: known.id }] : [];
  });
  await addItems(work.tx, loaded.record.id, fresh, work.now);
  await addAliases(work.tx, loaded.record.id, aliases, work.now);
  return items.map((item) => here(item) ?? item);
}
