// How the steps are laid out for the phone: one by one where danger or order matters, else in groups that are done first and then confirmed.

/** What the layout depends on. */
export type PagedStep = {
  stepKey: string;
  itemId: string | null;
  /** Of what kind the item is; 'property' without one. */
  per: string;
  style: 'read_then_do' | 'do_then_confirm';
  partnerCheck: boolean;
  procedureTitle: string;
  sequence: string | null;
};
export type StepPage<S> = { kind: 'one' | 'group'; title: string; steps: S[] };

/** Lines per pause point: 5 to 9 is what the literature on checklists names (from memory). */
const MOST = 9;

/** Steps for the only thing of its kind stand with those for the property: nobody can mix them up. */
const together =
  (several: ReadonlySet<string>) =>
  (a: PagedStep, b: PagedStep): boolean =>
    a.procedureTitle === b.procedureTitle && (a.itemId === b.itemId || (!several.has(a.per) && !several.has(b.per)));

/** Kinds of which there is more than one thing. */
function kindsOfSeveral(steps: readonly PagedStep[]): Set<string> {
  const seen = new Map<string, Set<string | null>>();
  for (const { per, itemId } of steps) seen.set(per, (seen.get(per) ?? new Set()).add(itemId));
  return new Set([...seen].flatMap(([per, items]) => (items.size > 1 ? [per] : [])));
}

/** Read before it is done, or recorded by both: it stands by itself. */
export const isAlone = (step: PagedStep): boolean => step.style === 'read_then_do' || step.partnerCheck;

/** As few parts as possible, as even as possible: 11 becomes 6 and 5. */
const evenly = <S>(steps: readonly S[]): S[][] => {
  const parts = Math.ceil(steps.length / MOST);
  const starts = Array.from({ length: parts + 1 }, (_, at) => Math.round((at * steps.length) / parts));
  return Array.from({ length: parts }, (_, at) => steps.slice(starts[at], starts[at + 1]));
};

/** Pages in the order of the work. A step read before it is done, or checked by the partner, stands by itself. */
export function pagesOf<S extends PagedStep>(steps: readonly S[]): StepPage<S>[] {
  const fits = together(kindsOfSeveral(steps));
  const runs: S[][] = [];
  for (const step of steps) {
    const last = runs.at(-1);
    const before = last?.at(-1);
    if (last && before && !isAlone(before) && !isAlone(step) && fits(before, step)) last.push(step);
    else runs.push([step]);
  }
  return runs.flatMap(evenly).map((part) => ({ kind: part.length === 1 ? 'one' : 'group', title: part[0]!.procedureTitle, steps: part }));
}

/**
 * The page to go on with from the one at `from`: the nearest behind it, else the first before it, that holds a step which is wanted. Each
 * rule of `wanted` is tried on all pages before the next one; null when no page holds anything wanted.
 */
export function goOn<S>(pages: readonly StepPage<S>[], from: number, wanted: readonly ((step: S) => boolean)[]): number | null {
  const others = pages.map((_, at) => (from + 1 + at) % pages.length).filter((at) => at !== from);
  for (const wants of wanted) {
    const next = others.find((at) => pages[at]!.steps.some(wants));
    if (next !== undefined) return next;
  }
  return null;
}
