// The package that a pair is handed at the start: which steps apply at this house, for which things, in which order.
import type { Step } from '../procedures/step.ts';
import { inWords } from '../shared/english.ts';
import { evaluate, factsAsked, type NamedContext } from '../shared/evaluate.ts';
import { factName, listed } from '../shared/phrases.ts';
import { doubledRows } from './doubleLook.ts';
import type { RecordItem } from './items.ts';

/** A revision as it stood in force when the package was made. */
export type FrozenRevision = {
  procedureKey: string;
  title: string;
  system: string;
  revisionId: string;
  number: number;
  steps: readonly Step[];
};

/** One time that a step applies: at the property, or at one item. `position` counts from 1 within the package. */
export type PackageStep = {
  step: Step;
  revisionId: string;
  procedureKey: string;
  system: string;
  item: RecordItem | null;
  position: number;
  /** Both members record it, each without seeing the other's answer. */
  partnerCheck: boolean;
  /** Why it is in the package, in plain words. */
  because: string;
};

/**
 * `pair` is false on a visit of one person, where nobody can check independently. `doubleLook` chooses the system that is looked at twice, where
 * the visit is in the sample (see `doubleLookOf`).
 */
export type PackageContext = NamedContext & { items: readonly RecordItem[]; pair: boolean; doubleLook?: number | null };

type Row = Omit<PackageStep, 'position'>;
/** Rows that stay together: a sequence done for one item, or one row by itself. */
type Block = Row[];

const reason = (step: Step, context: NamedContext): string => {
  const unknown = factsAsked(step.applies, context).map(factName);
  return evaluate(step.applies, context) === 'unknown'
    ? `applies because not known yet: ${listed(unknown, 'and')}`
    : inWords(step.applies, context.serviceNames);
};

const rowOf = (revision: FrozenRevision, step: Step, item: RecordItem | null, context: PackageContext): Row => ({
  step,
  item,
  revisionId: revision.revisionId,
  procedureKey: revision.procedureKey,
  system: revision.system,
  partnerCheck: step.who === 'partner_check' && step.onePersonOnly !== true && context.pair,
  because: reason(step, context),
});

/** Steps that follow each other and are done for the same kind of thing are done item by item, not step by step. */
const runsOf = (steps: readonly Step[]): Step[][] => {
  const runs: Step[][] = [];
  for (const step of steps) {
    const last = runs.at(-1);
    if (last?.[0]?.per === step.per) last.push(step);
    else runs.push([step]);
  }
  return runs;
};

const inBlocks = (rows: readonly Row[]): Block[] => {
  const blocks: Block[] = [];
  for (const row of rows) {
    const last = blocks.at(-1)?.[0];
    const together =
      last !== undefined &&
      row.step.sequence !== undefined &&
      last.step.sequence === row.step.sequence &&
      last.item?.id === row.item?.id &&
      last.procedureKey === row.procedureKey;
    if (together) blocks.at(-1)?.push(row);
    else blocks.push([row]);
  }
  return blocks;
};

const blocksOf = (revision: FrozenRevision, context: PackageContext): Block[] => {
  const applying = revision.steps.filter((step) => evaluate(step.applies, context) !== 'no');
  return runsOf(applying).flatMap((run) => {
    const per = run[0]?.per;
    const things = per === 'property' ? [null] : context.items.filter((item) => item.kind === per);
    return things.flatMap((item) => inBlocks(run.map((step) => rowOf(revision, step, item, context))));
  });
};

/** A row waits for the earlier step at its own item where both are done per item of one kind, else for it everywhere. */
const waitsFor = (row: Row, other: Row): boolean =>
  row.step.after.includes(other.step.key) && (row.step.per !== other.step.per || row.item?.id === other.item?.id);

/** The given order, except that a block comes after everything that it waits for. */
const ordered = (blocks: readonly Block[]): Block[] => {
  const left = [...blocks];
  const done: Block[] = [];
  while (left.length > 0) {
    const ready = left.findIndex(
      (block) => !left.some((other) => other !== block && block.some((row) => other.some((before) => waitsFor(row, before)))),
    );
    done.push(...left.splice(Math.max(ready, 0), 1));
  }
  return done;
};

/**
 * Every time that a step of the revisions applies, in the order of the work. A rule that rests on a fact not known yet
 * makes its step apply. `from` continues the positions of an earlier package.
 */
export const makePackage = (revisions: readonly FrozenRevision[], context: PackageContext, from = 0): PackageStep[] =>
  withDoubleLook(ordered(revisions.flatMap((revision) => blocksOf(revision, context))).flat(), context).map((row, at) => ({
    ...row,
    position: from + at + 1,
  }));

const withDoubleLook = (rows: Row[], { pair, doubleLook }: PackageContext): Row[] => {
  const doubled = new Set(pair && doubleLook !== undefined && doubleLook !== null ? doubledRows(rows, doubleLook) : []);
  return rows.map((row) =>
    doubled.has(row) ? { ...row, partnerCheck: true, because: `${row.because}; looked at twice on this visit` } : row,
  );
};

/** The steps that an item found on site adds to what was already handed out. */
export const addedSteps = (revisions: readonly FrozenRevision[], context: PackageContext, item: RecordItem, from: number): PackageStep[] =>
  makePackage(
    revisions.map((revision) => ({ ...revision, steps: revision.steps.filter((step) => step.per === item.kind) })),
    { ...context, items: [item] },
    from,
  );
