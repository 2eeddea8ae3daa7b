// Puts a record together on the phone, by the rules by which the service does it, from what was handed out ahead.
import type { MemberRecord, SiteItem, SiteStep } from '@backsight/contract/sitework';
import type { Ahead, AheadRevision, AheadVisit } from '@backsight/contract/sitework/ahead';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import { addedSteps, makePackage, type FrozenRevision, type PackageContext, type PackageStep } from '@backsight/domain/sitework/package';
import { shownStep } from '@backsight/domain/sitework/shown';
import { systemsOf } from '@backsight/domain/sitework/visit';

/** Revisions of the visit as the rules take them. The procedure book checks steps before they come into force. */
const frozen = (ahead: Ahead, visit: AheadVisit): FrozenRevision[] =>
  ahead.revisions
    .filter(({ revisionId }) => visit.revisionIds.includes(revisionId))
    .map((revision: AheadRevision) => ({ ...revision, steps: revision.steps as unknown as FrozenRevision['steps'] }));

const contextOf = ({ basis: { facts, crewSize, ...basis } }: AheadVisit, items: SiteItem[]): PackageContext => ({
  ...basis,
  facts: facts as PropertyFacts,
  items,
  pair: crewSize === 2,
});

const shownOf = (steps: readonly PackageStep[], revisions: readonly FrozenRevision[], packageId: string): SiteStep[] =>
  steps.map(({ step, revisionId, system, item, position, partnerCheck, because }) => {
    const revision = revisions.find((one) => one.revisionId === revisionId)!;
    const at = { packageId, itemId: item?.id ?? null, revisionId, revisionNumber: revision.number, procedureTitle: revision.title };
    return shownStep(step, { ...at, system, position, partnerCheck, because }) as SiteStep;
  });

export type Opening = { items: SiteItem[]; systems: string[]; me: string; now: string };

/** The record as it stands at the moment of opening, before anything is written down. */
export function openHere(ahead: Ahead, visit: AheadVisit, { items, systems, me, now }: Opening): MemberRecord {
  const kept = systemsOf(visit.start.visit.kind, systems);
  const revisions = frozen(ahead, visit).filter(({ system }) => kept === null || kept.includes(system));
  const steps = makePackage(revisions, contextOf(visit, items));
  return {
    id: visit.recordId,
    state: 'open',
    openedAt: now,
    endedAs: null,
    visit: { ...visit.start.visit, state: 'on_site', recordId: visit.recordId, recordState: 'open' },
    items,
    me,
    sealAskedBy: null,
    aliases: [],
    steps: shownOf(steps, revisions, visit.packageId),
    acts: [],
    entries: [],
    withheld: [],
    comparisons: [],
    missing: [],
    photos: [],
    spoken: [],
  };
}

/** The steps that a thing found on site brings; null when this phone was not handed what the record was made from. */
export function stepsOf(ahead: Ahead, record: MemberRecord, item: SiteItem): SiteStep[] | null {
  const visit = ahead.visits.find(({ start }) => start.visit.id === record.visit.id);
  if (!visit || record.steps.some(({ revisionId }) => !visit.revisionIds.includes(revisionId))) return null;
  const systems = new Set(record.steps.map(({ system }) => system));
  const revisions = frozen(ahead, visit).filter(({ system }) => record.visit.kind === 'inspection' || systems.has(system));
  const steps = addedSteps(revisions, contextOf(visit, [item]), item, record.steps.at(-1)?.position ?? 0);
  return shownOf(steps, revisions, record.steps[0]?.packageId ?? visit.packageId);
}
