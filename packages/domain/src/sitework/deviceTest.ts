// The test of one ground-fault device: what was live, what went dead, and whether everything that was live is live again.
// Nobody knows the circuit before the test: what goes dead is what the device protects.
import { inOrder } from './inOrder.ts';
import type { KnownAct, SiteAct } from './act.ts';

/** `dead`: went dead when the device tripped. `back`: what was seen after the reset; null while nobody has looked. */
export type Outlet = {
  id: string;
  where: string;
  reached: boolean;
  appliance: string;
  /** Of one that cannot be reached: whether its appliance ran before. */ runs: boolean | null;
  dead: boolean;
  back: boolean | null;
};
export type DeviceTest = {
  device: string;
  outlets: Outlet[];
  by: Extract<SiteAct, { do: 'trip' }>['by'] | null;
  result: Extract<SiteAct, { do: 'trip' }>['result'] | null;
  resets: boolean | null;
};

const blank = (device: string): DeviceTest => ({ device, outlets: [], by: null, result: null, resets: null });

function put(test: DeviceTest, { act, words }: KnownAct): void {
  if (act.do === 'outlet') {
    const { outlet: id, reached, runs } = act;
    const row = { id, reached, runs, where: words.where ?? '', appliance: words.appliance ?? '', dead: false, back: null };
    test.outlets = [...test.outlets.filter((other) => other.id !== id), row];
  } else if (act.do === 'trip') {
    Object.assign(test, { by: act.by, result: act.result, resets: null });
    test.outlets = test.outlets.map((outlet) => ({ ...outlet, dead: act.dead.includes(outlet.id), back: null }));
  } else if (act.do === 'reset') test.resets = act.resets;
  else if (act.do === 'power_back')
    test.outlets = test.outlets.map((outlet) =>
      act.live.includes(outlet.id) ? { ...outlet, back: true } : act.dead.includes(outlet.id) ? { ...outlet, back: false } : outlet,
    );
}

/** The tests of a record by device, from its acts. */
export function deviceTests(acts: readonly KnownAct[]): Map<string, DeviceTest> {
  const tests = new Map<string, DeviceTest>();
  for (const known of inOrder(acts)) {
    if (!('device' in known.act)) continue;
    const test = tests.get(known.act.device) ?? blank(known.act.device);
    put(test, known);
    tests.set(known.act.device, test);
  }
  return tests;
}

/** Whether power was interrupted: pressing a device that does not trip, or was dead as found, changes nothing. */
export const wasInterrupted = (test: DeviceTest): boolean => test.result === 'trips';

/** Receptacles that were live, and appliances that ran, before the test. */
export const wereLive = (test: DeviceTest): Outlet[] => test.outlets.filter(({ reached, runs }) => reached || runs === true);

/** What was live and has not been seen live again; empty while power was never interrupted. */
export const notBack = (test: DeviceTest): Outlet[] => (wasInterrupted(test) ? wereLive(test).filter(({ back }) => back !== true) : []);

/** Live receptacles that the device does not protect: reported where the date of building calls for protection; no failed test. */
export const notProtected = (test: DeviceTest): Outlet[] =>
  wasInterrupted(test) ? test.outlets.filter(({ reached, dead }) => reached && !dead) : [];

/** How far the test has come; the screen asks for what is next. */
export function nextPart(test: DeviceTest | undefined): 'note' | 'reset' | 'confirm' | 'told' | 'whole' {
  if (!test || test.result === null) return 'note';
  if (!wasInterrupted(test)) return 'whole';
  if (test.resets === null) return 'reset';
  const open = notBack(test);
  if (open.some(({ back }) => back === null)) return 'confirm';
  return open.length > 0 || !test.resets ? 'told' : 'whole';
}

/** The counts of a test: what was live before, what went dead, what is live again. Appliances out of reach are not counted. */
export const countsOf = (test: DeviceTest): { before: number; dead: number; after: number } => {
  const reached = test.outlets.filter(({ reached: yes }) => yes);
  const after = wasInterrupted(test) ? reached.filter(({ back }) => back === true).length : reached.length;
  return { before: reached.length, dead: reached.filter(({ dead }) => dead).length, after };
};

type AskedStep = { stepKey: string; evidence: { kind: string; mustMatch?: string; options?: readonly { key: string }[] } };
type Answer = { kind: 'count'; count: number } | { kind: 'choice'; option: string };

const optionOf = (test: DeviceTest): string => {
  if (test.result === 'no_trip') return 'no_trip';
  if (test.result === 'dead_as_found') return 'dead';
  return test.resets === false ? 'no_reset' : 'trips_resets';
};

/** What the finished test answers at a step of the device, or null where the step asks for something else. */
export function answerOf(step: AskedStep, test: DeviceTest): Answer | null {
  const { before, after } = countsOf(test);
  if (step.evidence.kind === 'count') return { kind: 'count', count: step.evidence.mustMatch === undefined ? before : after };
  const option = optionOf(test);
  return step.evidence.kind === 'choice' && step.evidence.options?.some(({ key }) => key === option) ? { kind: 'choice', option } : null;
}
