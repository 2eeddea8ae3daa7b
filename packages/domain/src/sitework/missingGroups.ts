// What still misses before the seal, system by system, with what can be done for a whole group: nothing is filled in by itself.
import type { KnownAct } from './act.ts';
import { lookAt, lookFor, type PlacedStep } from './hazards.ts';
import type { MissingEntry } from './seal.ts';
import { placeOf } from './value.ts';

type GroupedStep = PlacedStep & {
  procedureTitle: string;
  partnerCheck: boolean;
  style: 'read_then_do' | 'do_then_confirm';
  evidence: { kind: string };
};
/** `missing`: in the order of the work. `mine`: what this person may record. `plain`: of these, what is done first and then confirmed, without an answer. */
export type MissingGroup<S> = { title: string; missing: { step: S; person: string | null }[]; mine: S[]; plain: S[] };

/** The stop list of its place was gone through and let somebody go there; also where there is none. */
const mayBeConfirmed = (step: PlacedStep, acts: readonly KnownAct[]): boolean => {
  const look = lookFor(step);
  return look === null || lookAt(acts, look.place, look.item)?.stops.length === 0;
};

/** Groups in the order of the record; a place that is missing for both of the pair stands there twice. */
export function groupMissing<S extends GroupedStep>(
  missing: readonly MissingEntry[],
  steps: readonly S[],
  { me, acts }: { me: string; acts: readonly KnownAct[] },
): MissingGroup<S>[] {
  const groups = new Map<string, MissingGroup<S>>();
  for (const step of steps) {
    const here = missing.filter((one) => placeOf(one) === placeOf(step));
    if (here.length === 0) continue;
    const group = groups.get(step.procedureTitle) ?? { title: step.procedureTitle, missing: [], mine: [], plain: [] };
    group.missing.push(...here.map(({ person }) => ({ step, person })));
    if (here.some(({ person }) => person === null || person === me)) {
      group.mine.push(step);
      const plain = !step.partnerCheck && step.style === 'do_then_confirm' && step.evidence.kind === 'confirm';
      if (plain && mayBeConfirmed(step, acts)) group.plain.push(step);
    }
    groups.set(step.procedureTitle, group);
  }
  return [...groups.values()];
}
