// Devices that are left at a house and samples that are drawn there: their steps, and the limits of their tests.
// Radon: 48 hours at least, in a house closed for 12 hours before (Wisconsin Department of Health Services; the 12 hours from memory).
import { accept, refuse, type Outcome, type Warning } from '../shared/outcome.ts';

export const TEST_KINDS = { device: 'device', sample: 'sample' } as const;
export const TEST_STEPS = {
  placed: 'placed',
  collected: 'collected',
  sent: 'sent to the laboratory',
  received: 'received by the laboratory',
  told: 'result told to the client',
  given_up: 'no result will come',
} as const;
export type TestKind = keyof typeof TEST_KINDS;
export type TestStep = keyof typeof TEST_STEPS;

export type TestItemFacts = {
  kind: TestKind;
  /** From when the test runs; null for a sample. */
  testFrom: Date | null;
  shortestHours: number;
  holdingHours: number | null;
  steps: readonly { step: TestStep; happenedAt: Date }[];
};

const HOUR = 3_600_000;
const hoursAfter = (at: Date, hours: number): Date => new Date(at.getTime() + hours * HOUR);

/** The test runs from the placing, or later until the house has been closed long enough. `closedSince` null: closed when it was placed. */
export const testFrom = (placedAt: Date, closedSince: Date | null, closedHours: number): Date => {
  const closed = hoursAfter(closedSince ?? placedAt, closedHours);
  return closed > placedAt ? closed : placedAt;
};

/** The earliest instant at which a device may be collected; null for a sample. */
export const collectFrom = (item: Pick<TestItemFacts, 'testFrom' | 'shortestHours'>): Date | null =>
  item.testFrom && hoursAfter(item.testFrom, item.shortestHours);

const NEXT: Record<TestStep, readonly TestStep[]> = {
  placed: ['collected', 'given_up'],
  collected: ['sent', 'told', 'given_up'],
  sent: ['received', 'told', 'given_up'],
  received: ['told', 'given_up'],
  told: [],
  given_up: [],
};

/** What may come next. */
export const nextSteps = (item: Pick<TestItemFacts, 'kind' | 'steps'>): readonly TestStep[] => {
  const last = item.steps.at(-1);
  return last ? NEXT[last.step] : [item.kind === 'device' ? 'placed' : 'collected'];
};

/** `moved`: the device was found elsewhere or turned; `words`: the result, or why none will come. `said` is the earliest instant in words. */
export type StepCommand = { step: TestStep; happenedAt: Date; moved: boolean | null; words: string };

export function mayStep(item: TestItemFacts, command: StepCommand, now: Date, say: (at: Date) => string): Outcome<null> {
  if (!nextSteps(item).includes(command.step)) return refuse('test-step-order', {}, 'step');
  if (command.happenedAt > now) return refuse('test-step-ahead', {}, 'happenedAt');
  const last = item.steps.at(-1);
  if (last && command.happenedAt < last.happenedAt) return refuse('test-step-order', {}, 'happenedAt');
  const from = collectFrom(item);
  if (command.step === 'collected' && from && command.happenedAt < from)
    return refuse('collected-too-early', { earliest: say(from) }, 'happenedAt');
  if (command.step === 'collected' && item.kind === 'device' && command.moved === null) return refuse('moved-check-missing', {}, 'moved');
  if ((command.step === 'told' || command.step === 'given_up') && command.words.trim() === '')
    return refuse('test-words-missing', {}, 'words');
  return accept(null, warningsOf(item, command, say));
}

function warningsOf(item: TestItemFacts, command: StepCommand, say: (at: Date) => string): Warning[] {
  const drawn = item.steps.find(({ step }) => step === 'collected');
  const until = drawn && item.holdingHours !== null ? hoursAfter(drawn.happenedAt, item.holdingHours) : null;
  const late = command.step === 'received' && until && command.happenedAt > until;
  return [
    ...(late
      ? [{ code: 'holding-time-over', text: `The laboratory had to have it by ${say(until)}. Ask whether a new sample is needed.` }]
      : []),
    ...(command.moved
      ? [{ code: 'device-moved', text: 'The device was moved. The result may not count; decide whether the test is done again.' }]
      : []),
  ];
}
