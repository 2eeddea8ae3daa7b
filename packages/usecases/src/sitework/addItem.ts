// Adds a thing found on site: a further package hands out its steps; what was recorded before stays.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { ItemKind, PropertyFacts } from '@backsight/domain/shared/facts';
import { ITEM_KINDS } from '@backsight/domain/shared/facts';
import { addedSteps } from '@backsight/domain/sitework/package';
import { addItems, frozenRevisions, lockRecord } from '@backsight/store/sitework';
import type { Act, Work } from '../run.ts';
import { issuePackage, type PackageBasis } from './steps/issuePackage.ts';
import { takeItems } from './steps/joinRecord.ts';
import { handedTo, loadRecord } from './steps/loadRecord.ts';

/** `joins`: from a phone without signal, where a thing of that kind and name that the record has meanwhile is the same thing. */
export type AddItemInput = { recordId: string; id: string; kind: ItemKind; label: string; joins?: boolean };
type Added = { id: string; packageId: string; number: number; steps: number };

export const addItem: Act<AddItemInput, Added> = { operation: 'sitework.add-item', run: add };

async function add(work: Work, input: AddItemInput): Promise<Outcome<Added>> {
  const locked = await lockRecord(work.tx, input.recordId);
  const loaded = locked && (await loadRecord(work.tx, input.recordId));
  const first = loaded?.packages[0];
  if (!loaded || !first) return refuse('not-found', { thing: 'site record' });
  if (work.actor.kind !== 'person' || !handedTo(loaded).has(work.actor.id)) return refuse('not-on-this-visit');
  if (loaded.record.state === 'sealed') return refuse('record-sealed');
  const item = { id: input.id, kind: input.kind, label: input.label };
  const same = loaded.items.find(({ kind, label }) => kind === item.kind && label === item.label);
  if (same && !input.joins) return refuse('item-name-taken', {}, 'label');
  if (same) {
    await takeItems(work, loaded, [item]);
    await work.did('site-record', input.recordId, { item: same.id, joined: true });
    return accept({ id: same.id, packageId: first.id, number: first.number, steps: 0 });
  }
  const { because: _because, ...basis } = first.body as PackageBasis & { because: unknown };
  const revisions = await frozenRevisions(
    work.tx,
    basis.revisions.map(({ revisionId }) => revisionId),
  );
  const context = {
    facts: basis.facts as PropertyFacts,
    services: basis.services,
    serviceNames: loaded.visit.serviceNames,
    day: basis.day,
    items: [item],
    pair: loaded.visit.crewSize === 2,
  };
  const steps = addedSteps(revisions, context, item, loaded.steps.at(-1)?.position ?? 0);
  if (steps.length === 0) return refuse('item-without-steps', { kind: ITEM_KINDS[item.kind] }, 'kind');
  await addItems(work.tx, input.recordId, [item], work.now);
  const number = loaded.packages.length + 1;
  const packageId = await issuePackage(work, { recordId: input.recordId, number, basis, steps, startDespiteGate: first.startDespiteGate });
  await work.did('site-record', input.recordId, { item: input.id, kind: input.kind, package: number, steps: steps.length });
  return accept({ id: input.id, packageId, number, steps: steps.length });
}
