// Hands out a numbered package: the steps that apply, frozen with their revisions, and the state of the gate.
import type { FrozenRevision, PackageStep } from '@backsight/domain/sitework/package';
import { savePackage } from '@backsight/store/sitework';
import type { Work } from '../../run.ts';
import { fingerprint } from './fingerprint.ts';

/** What a package was made from; kept in it, so that later ones are made from the same. */
export type PackageBasis = {
  day: string;
  facts: unknown;
  services: readonly string[];
  pair: readonly { personId: string; place: string }[];
  revisions: readonly { procedureKey: string; title: string; system: string; revisionId: string; number: number }[];
  gate: { missing: readonly string[]; sentences: readonly string[] };
};

export const basisOf = (revisions: readonly FrozenRevision[]): PackageBasis['revisions'] =>
  revisions.map(({ procedureKey, title, system, revisionId, number }) => ({ procedureKey, title, system, revisionId, number }));

/** Saves the package, under the id given or a new one, and answers its id. Its fingerprint also covers the words of every step. */
export async function issuePackage(
  work: Work,
  p: { id?: string; recordId: string; number: number; basis: PackageBasis; steps: readonly PackageStep[]; startDespiteGate: boolean },
): Promise<string> {
  const id = p.id ?? work.newId();
  const rows = p.steps.map((s) => ({
    id: work.newId(),
    stepKey: s.step.key,
    revisionId: s.revisionId,
    itemId: s.item?.id ?? null,
    position: s.position,
    partnerCheck: s.partnerCheck,
  }));
  const because = p.steps.map((s, at) => ({ ...rows[at]!, because: s.because }));
  const sha256 = fingerprint({
    ...p.basis,
    number: p.number,
    steps: p.steps.map((s, at) => ({ ...because[at]!, step: s.step, item: s.item })),
  });
  const { recordId, number, startDespiteGate } = p;
  await savePackage(
    work.tx,
    {
      id,
      recordId,
      number,
      body: { ...p.basis, because: because.map((b) => ({ stepKey: b.stepKey, itemId: b.itemId, because: b.because })) },
      sha256,
      startDespiteGate,
      at: work.now,
    },
    rows,
  );
  return id;
}
