// How much a record asks of each of a pair at one house, in inputs: presses, choices, figures, notes and photos.
import type { Evidence } from '../procedures/step.ts';
import { ENTERED_PLACES, type SiteAct } from './act.ts';
import { doorAnswer } from './doorAnswers.ts';
import { lookFor } from './hazards.ts';
import type { PackageStep } from './package.ts';
import { pagesOf } from './pages.ts';

/** Answers to give before a step is recorded; a confirmation needs none; a photo is asked for, taken and kept. */
const ANSWERS: Record<Evidence['kind'], number> = { confirm: 0, choice: 1, reading: 1, count: 1, note: 1, photo: 3, difference: 2 };

export type Burden = {
  /** Inputs that either of the pair may make. */
  shared: number;
  /** Inputs that both make for themselves: partner checks. */
  each: number;
  /** Inputs of one person when the shared ones are divided evenly. */
  perPerson: number;
  partnerChecks: number;
};

const perPersonOf = (shared: number, each: number): number => Math.ceil(shared / 2) + each;

/** Of the steps alone. One press records a page, whether it is one step or a group that is confirmed together; exceptions come on top. */
export function burdenOf(steps: readonly PackageStep[]): Burden {
  const pages = pagesOf(
    steps.map(({ step, item, partnerCheck, procedureKey }) => ({
      ...{ stepKey: step.key, itemId: item?.id ?? null, per: step.per, style: step.style, sequence: step.sequence ?? null },
      ...{ partnerCheck, procedureTitle: procedureKey, answers: ANSWERS[step.evidence.kind] },
    })),
  );
  const inputs = (checked: boolean): number =>
    pages
      .filter((page) => page.steps[0]!.partnerCheck === checked)
      .reduce((sum, page) => sum + 1 + page.steps.reduce((answers, one) => answers + one.answers, 0), 0);
  const [shared, each] = [inputs(false), inputs(true)];
  return { shared, each, perPerson: perPersonOf(shared, each), partnerChecks: steps.filter(({ partnerCheck }) => partnerCheck).length };
}

/** What one part of a visit asks for. */
export type VisitPart = { what: string; shared: number; each: number };
export type VisitBurden = { parts: VisitPart[]; perPerson: number; partnerChecks: number };

/** What is noted at the door of an ordinary house: it answers the steps of the book that ask for the same. */
const AT_THE_DOOR: readonly SiteAct[] = [
  { do: 'arrival', there: 'adult', animals: 'none', recording: 'none', inView: [] },
  { do: 'conditions', outdoorF: 60, rain48: 'none', snow: 'none', water: 'on', gas: 'on', electricity: 'on', house: 'occupied' },
  { do: 'loads', asked: 'occupant', loads: ['freezer'] },
];
const answeredAtDoor = ({ step, item, partnerCheck }: PackageStep): boolean =>
  item === null &&
  !partnerCheck &&
  AT_THE_DOOR.some((act) => doorAnswer({ stepKey: step.key, evidence: step.evidence }, act, { where: 'garage' }) !== null);
const isOfDevice = ({ item }: PackageStep): boolean => item?.kind === 'ground_fault_device';

/** To the page; three choices and a press; a figure and a press; two choices, where, and a press; the division, which leads back. */
const DOOR = 1 + 4 + 2 + 4 + 1;
/** Two receptacles noted; one went dead; it trips; the count after the reset; it is reset and live again; the next device or back. */
const DEVICE = 2 + 1 + 1 + 1 + 1 + 1;
/** Thermostat, attic hatch and garage door (common practice): each noted where it is changed; one press that all on the list are put back. */
const CHANGES = 3 + 1;

/** One press says that nothing of the stop list is there and, where somebody goes in, by when he is back; one that he is out. */
function looksAt(steps: readonly PackageStep[]): number {
  const looks = new Map<string, number>();
  for (const { step, system, item } of steps) {
    const look = lookFor({
      stepKey: step.key,
      system,
      per: step.per,
      itemId: item?.id ?? null,
      ...(step.place ? { place: step.place } : {}),
    });
    if (look) looks.set(`${look.place} ${look.item}`, (ENTERED_PLACES as readonly string[]).includes(look.place) ? 2 : 1);
  }
  return [...looks.values()].reduce((sum, presses) => sum + presses, 0);
}

/**
 * Every input of an ordinary visit from the start to the seal, part by part as the screens ask for it. Exceptions (not there, could not be
 * inspected, further notes, answers that differ) come on top.
 */
export function visitBurden(steps: readonly PackageStep[]): VisitBurden {
  const devices = new Set(steps.filter(isOfDevice).map(({ item }) => item!.id)).size;
  const rest = burdenOf(steps.filter((one) => !answeredAtDoor(one) && !isOfDevice(one)));
  const parts: VisitPart[] = [
    { what: 'start, and the record opened', shared: 1, each: 1 },
    { what: 'at the door', shared: DOOR, each: 0 },
    { what: 'stop lists, going in and coming out', shared: looksAt(steps), each: 0 },
    { what: 'ground-fault devices', shared: devices === 0 ? 0 : 1 + devices * DEVICE, each: 0 },
    { what: 'steps', shared: rest.shared, each: rest.each },
    { what: 'changed and put back', shared: CHANGES, each: 0 },
    { what: 'to the closing page, and signed off', shared: 0, each: 2 },
    { what: 'ended and sealed, each with its question', shared: 4, each: 0 },
  ];
  const sum = (of: 'shared' | 'each'): number => parts.reduce((total, part) => total + part[of], 0);
  return { parts, perPerson: perPersonOf(sum('shared'), sum('each')), partnerChecks: rest.partnerChecks };
}
