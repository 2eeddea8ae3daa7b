// The pauses of a procedure before anybody works by it: its steps as an inspector gets them, and where a pause is too short to be one.
import type { Procedure, Step } from '../procedures/step.ts';
import { ALWAYS } from '../shared/applicability.ts';
import { ITEM_KINDS } from '../shared/facts.ts';
import { makePackage } from './package.ts';
import { isAlone, pagesOf, type PagedStep, type StepPage } from './pages.ts';

/** Lines per pause from which on it is worth one: 5 to 9 is what the literature on checklists names (from memory). */
export const FEWEST = 5;

export type PauseLine = PagedStep & { title: string; item: string | null };
/** What is moved where so that a short pause becomes part of another: `keys`, in their order, directly before or behind `of`. */
export type Join = { keys: string[]; side: 'before' | 'behind'; of: string; ofTitle: string; lines: number };
/** `short`: a pause of fewer lines than `FEWEST`. `join` is null where what stands between has to stay there, or where nothing is near. */
export type Pause = StepPage<PauseLine> & { short: boolean; join: Join | null };

/** `most`: a house at which every rule holds, with one of each thing; `fewest`: one at which only the steps without a rule apply. */
export type PauseHouse = 'most' | 'fewest';

const linesOf = ({ key, title, system, steps }: Procedure, house: PauseHouse): PauseLine[] => {
  const there = house === 'most' ? steps.map((step) => ({ ...step, applies: ALWAYS })) : steps.filter(({ applies }) => 'always' in applies);
  const items = [...new Set(there.flatMap(({ per }) => (per === 'property' ? [] : [per])))].map((kind) => ({
    id: kind,
    kind,
    label: ITEM_KINDS[kind],
  }));
  const revision = { procedureKey: key, title, system, revisionId: '', number: 0, steps: there };
  return makePackage([revision], { facts: {}, services: [], serviceNames: {}, day: '2000-06-01', items, pair: true }).map(
    ({ step, item, partnerCheck }) => ({
      ...{
        stepKey: step.key,
        title: step.title,
        itemId: item?.id ?? null,
        item: item?.label ?? null,
        per: step.per,
        style: step.style,
        partnerCheck,
      },
      ...{ procedureTitle: title, sequence: step.sequence ?? null },
    }),
  );
};

/** Keys of the steps that must come before a step, however far back. */
function allBefore(key: string, steps: ReadonlyMap<string, Step>): Set<string> {
  const seen = new Set<string>();
  const open = [key];
  for (let at = open.pop(); at !== undefined; at = open.pop())
    for (const before of steps.get(at)?.after ?? [])
      if (!seen.has(before)) {
        seen.add(before);
        open.push(before);
      }
  return seen;
}

const isPause = (page: StepPage<PauseLine> | undefined): boolean => page !== undefined && !page.steps.some(isAlone);
const keysOf = (pages: readonly StepPage<PauseLine>[]): string[] => pages.flatMap(({ steps }) => steps.map(({ stepKey }) => stepKey));

type Around = { pages: readonly StepPage<PauseLine>[]; at: number; steps: ReadonlyMap<string, Step> };

/** The nearest pause for the same thing on one side, when the steps of this one may pass what stands between. */
function joinOn(side: -1 | 1, { pages, at, steps }: Around): Join | null {
  const here = pages[at]!;
  const item = here.steps[0]!.itemId;
  let to = at + side;
  while (pages[to] && !(isPause(pages[to]) && pages[to]!.steps[0]!.itemId === item)) to += side;
  const other = pages[to];
  if (!other || here.steps.some(({ sequence }) => sequence !== null)) return null;
  const between = keysOf(side < 0 ? pages.slice(to + 1, at) : pages.slice(at + 1, to));
  const own = keysOf([here]);
  const [waiting, first] = side < 0 ? [own, between] : [between, own];
  if (waiting.some((key) => first.some((before) => allBefore(key, steps).has(before)))) return null;
  const of = side < 0 ? other.steps.at(-1)! : other.steps[0]!;
  if (of.sequence !== null) return null;
  const lines = own.length + other.steps.length;
  return { keys: own, side: side < 0 ? 'behind' : 'before', of: of.stepKey, ofTitle: of.title, lines };
}

/** Every page in the order of the work, each pause with whether it is short and what it could join. */
export function pausesOf(procedure: Procedure, house: PauseHouse): Pause[] {
  const steps = new Map(procedure.steps.map((step) => [step.key, step]));
  const pages = pagesOf(linesOf(procedure, house));
  return pages.map((page, at) => {
    const short = isPause(page) && page.steps.length < FEWEST;
    return { ...page, short, join: short ? (joinOn(-1, { pages, at, steps }) ?? joinOn(1, { pages, at, steps })) : null };
  });
}

/** The steps in their new order. */
export function joined(steps: readonly Step[], { keys, side, of }: Join): Step[] {
  const moved = keys.flatMap((key) => steps.filter((step) => step.key === key));
  const rest = steps.filter(({ key }) => !keys.includes(key));
  const at = rest.findIndex(({ key }) => key === of) + (side === 'behind' ? 1 : 0);
  return [...rest.slice(0, at), ...moved, ...rest.slice(at)];
}
