// The checks that a revision of the procedure book must pass before it is approved, in plain words for the editor.
import type { Step } from './step.ts';
import { checkStep } from './stepChecks.ts';

type StepsByKey = ReadonlyMap<string, Step>;

const name = (step: Step): string => `Step "${step.key}"`;

/** Every step that must be recorded before `step`, however far back; a step that waits for itself is among them. */
const allBefore = (step: Step, known: StepsByKey): ReadonlySet<string> => {
  const seen = new Set<string>();
  const open = [...step.after];
  for (let key = open.pop(); key !== undefined; key = open.pop()) {
    if (seen.has(key)) continue;
    seen.add(key);
    open.push(...(known.get(key)?.after ?? []));
  }
  return seen;
};

const checkKeys = (steps: readonly Step[], elsewhere: readonly Step[]): string[] => {
  const taken = new Set(elsewhere.map((step) => step.key));
  return steps.flatMap((step) => {
    const twice = taken.has(step.key);
    taken.add(step.key);
    return twice ? [`The key "${step.key}" is used twice.`] : [];
  });
};

const checkAfter = (step: Step, known: StepsByKey): string[] => [
  ...step.after.filter((key) => !known.has(key)).map((key) => `${name(step)}: it comes after "${key}", which is not in the book.`),
  ...(allBefore(step, known).has(step.key) ? [`${name(step)}: by its order it would have to come before itself.`] : []),
];

const checkMatch = (step: Step, known: StepsByKey): string[] => {
  if (step.evidence.kind !== 'count' || step.evidence.mustMatch === undefined) return [];
  const key = step.evidence.mustMatch;
  const earlier = known.get(key);
  if (earlier === undefined) return [`${name(step)}: its count must match "${key}", which is not in the book.`];
  return [
    ...(earlier.evidence.kind === 'count' ? [] : [`${name(step)}: its count must match "${key}", which is not a count.`]),
    ...(earlier.per === step.per ? [] : [`${name(step)}: its count must match "${key}", which is done for other things.`]),
    ...(allBefore(step, known).has(key) ? [] : [`${name(step)}: its count must match "${key}" but does not come after it.`]),
  ];
};

/** A step of read-then-do style says that danger or order matters; one of the two must be on paper. */
const checkStyle = (step: Step, known: StepsByKey): string[] => {
  if (step.style !== 'read_then_do' || step.caution !== undefined || step.after.length > 0 || step.sequence !== undefined) return [];
  const othersWait = [...known.values()].some((other) => other.after.includes(step.key));
  return othersWait ? [] : [`${name(step)}: it is to be read before it is done but has neither a caution nor an order.`];
};

const checkGroup = (group: string, steps: readonly Step[], known: StepsByKey): string[] => {
  const places = steps.flatMap((step, place) => (step.sequence === group ? [place] : []));
  const members = places.flatMap((place) => steps[place] ?? []);
  const keys = members.map((step) => step.key);
  const apart = places.some((place, index) => place !== (places[0] ?? 0) + index);
  const backward = members.filter((step, index) => keys.slice(index + 1).some((later) => allBefore(step, known).has(later)));
  const between = [...known.values()].filter(
    (outside) =>
      outside.sequence !== group &&
      keys.some((key) => allBefore(outside, known).has(key)) &&
      members.some((step) => allBefore(step, known).has(outside.key)),
  );
  return [
    ...(apart ? [`Sequence "${group}": its steps are listed with others between them.`] : []),
    ...(members.length === 1 ? [`Sequence "${group}": it has only one step.`] : []),
    ...(new Set(members.map((step) => step.per)).size > 1 ? [`Sequence "${group}": its steps are done for different things.`] : []),
    ...backward.map((step) => `Sequence "${group}": "${step.key}" is listed before a step that it must come after.`),
    ...between.map((step) => `Sequence "${group}": "${step.key}" would have to be done in the middle of it.`),
  ];
};

/**
 * What is wrong with a revision, one plain sentence each; empty when it may be approved.
 * `steps` are in the order of the revision; `elsewhere` are the steps of the other procedures, to which an order may point.
 */
export const checkRevision = (steps: readonly Step[], elsewhere: readonly Step[] = []): string[] => {
  const known: StepsByKey = new Map([...elsewhere, ...steps].map((step) => [step.key, step]));
  const groups = [...new Set(steps.flatMap((step) => step.sequence ?? []))];
  return [
    ...checkKeys(steps, elsewhere),
    ...steps.flatMap((step) =>
      checkStep(step)
        .map((problem) => `${name(step)}: ${problem}`)
        .map((text) => (text.endsWith('.') ? text : `${text}.`)),
    ),
    ...steps.flatMap((step) => [...checkAfter(step, known), ...checkMatch(step, known), ...checkStyle(step, known)]),
    ...groups.flatMap((group) => checkGroup(group, steps, known)),
  ];
};
