// Compares two revisions of a procedure so that the answer reads like prose: what came, what went, what moved, what now reads or counts otherwise.
import { listed } from '../shared/phrases.ts';
import { changesOf, rewordingsOf, type Reworded } from './compareStep.ts';
import { movedKeys } from '../shared/moved.ts';
import { NO_NAMES, type StepNames } from './stepWords.ts';
import type { Step } from './step.ts';

/** One step that differs. `before` is null for an added one, `after` for a removed one; `sentences` say everything, in words. */
export type StepDifference = {
  key: string;
  title: string;
  kind: 'added' | 'removed' | 'kept';
  moved: boolean;
  sentences: string[];
  reworded: Reworded[];
  before: Step | null;
  after: Step | null;
};

/** Steps without a difference are left out. `summary` is one sentence. */
export type Comparison = { summary: string; differences: StepDifference[] };

const byKey = (steps: readonly Step[]): Map<string, Step> => new Map(steps.map((step) => [step.key, step]));

const placeOf = (steps: readonly Step[], key: string): string => {
  const at = steps.findIndex((step) => step.key === key);
  return at === 0 ? 'at the beginning' : `after "${steps[at - 1]!.title}"`;
};

const quoted = (steps: readonly Step[]): string =>
  listed(
    steps.map(({ title }) => `"${title}"`),
    'and',
  );

const addedStep = (step: Step, after: readonly Step[], names: StepNames): StepDifference => {
  const origin = step.derivedFrom === undefined ? '' : ` It takes over from "${names.steps[step.derivedFrom] ?? step.derivedFrom}".`;
  return {
    key: step.key,
    title: step.title,
    kind: 'added',
    moved: false,
    sentences: [`Added ${placeOf(after, step.key)}.${origin}`],
    reworded: [],
    before: null,
    after: step,
  };
};

const removedStep = (step: Step, added: readonly Step[]): StepDifference => {
  const heirs = added.filter(({ derivedFrom }) => derivedFrom === step.key);
  const sentence = heirs.length === 0 ? 'Removed.' : `Removed: ${quoted(heirs)} ${heirs.length === 1 ? 'takes' : 'take'} its place.`;
  return {
    key: step.key,
    title: step.title,
    kind: 'removed',
    moved: false,
    sentences: [sentence],
    reworded: [],
    before: step,
    after: null,
  };
};

const keptStep = (was: Step, step: Step, moved: boolean, lists: readonly (readonly Step[])[], names: StepNames): StepDifference => {
  const reworded = rewordingsOf(was, step);
  const move = moved ? [`Moved: it now comes ${placeOf(lists[1]!, step.key)}; before, ${placeOf(lists[0]!, step.key)}.`] : [];
  const sentences = [...move, ...reworded.map(({ sentence }) => sentence), ...changesOf(was, step, names)];
  return { key: step.key, title: step.title, kind: 'kept', moved, sentences, reworded, before: was, after: step };
};

/** Removed steps stand where they stood: behind the nearest earlier step that is still there ('' = at the beginning). */
const removedByPlace = (before: readonly Step[], fresh: ReadonlyMap<string, Step>): Map<string, Step[]> => {
  const places = new Map<string, Step[]>();
  let place = '';
  for (const step of before) {
    if (fresh.has(step.key)) place = step.key;
    else places.set(place, [...(places.get(place) ?? []), step]);
  }
  return places;
};

const counted = (count: number, what: string): string[] => (count === 0 ? [] : [`${count} ${what}`]);

const summaryOf = (differences: readonly StepDifference[]): string => {
  const count = (fits: (one: StepDifference) => boolean): number => differences.filter(fits).length;
  const parts = [
    ...counted(
      count(({ kind }) => kind === 'added'),
      'added',
    ),
    ...counted(
      count(({ kind }) => kind === 'removed'),
      'removed',
    ),
    ...counted(
      count(({ moved }) => moved),
      'moved',
    ),
    ...counted(
      count(({ kind, moved, sentences }) => kind === 'kept' && sentences.length > Number(moved)),
      'changed',
    ),
  ];
  return parts.length === 0 ? 'Nothing has changed.' : `Steps: ${listed(parts, 'and')}.`;
};

/**
 * What is different in `after`, step by step in its order, removed steps where they stood. `names` gives the titles of steps of other
 * procedures and the names of services; titles within the two revisions are known by themselves.
 */
export const compareRevisions = (before: readonly Step[], after: readonly Step[], given: StepNames = NO_NAMES): Comparison => {
  const titles = Object.fromEntries([...before, ...after].map(({ key, title }) => [key, title]));
  const names: StepNames = { services: given.services, steps: { ...given.steps, ...titles } };
  const [old, fresh] = [byKey(before), byKey(after)];
  const moved = movedKeys(before, after);
  const added = after.filter(({ key }) => !old.has(key));
  const gone = removedByPlace(before, fresh);
  const removedAt = (place: string): StepDifference[] => (gone.get(place) ?? []).map((step) => removedStep(step, added));
  const differences = [
    ...removedAt(''),
    ...after.flatMap((step) => {
      const was = old.get(step.key);
      const here = was === undefined ? addedStep(step, after, names) : keptStep(was, step, moved.has(step.key), [before, after], names);
      return [...(here.sentences.length === 0 ? [] : [here]), ...removedAt(step.key)];
    }),
  ];
  return { summary: summaryOf(differences), differences };
};
