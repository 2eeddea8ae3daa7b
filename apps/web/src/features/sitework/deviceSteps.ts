// The steps of the book that a finished test of a ground-fault device answers, so that nothing is typed twice.
import type { SiteAct } from '@backsight/domain/sitework/act';
import { answerOf, deviceTests, nextPart, type DeviceTest } from '@backsight/domain/sitework/deviceTest';
import type { UncountedEntry } from '../../api/phone/outbox.ts';
import { actEntry } from './acts.ts';
import { BLANK, entryOf } from './drafts.ts';
import type { Site } from './SitePage.tsx';

type Here = Pick<Site, 'record' | 'recorded'>;
const stepsOf = ({ record }: Here, device: string) => record.steps.filter(({ itemId }) => itemId === device);
const open = (site: Here, device: string) => stepsOf(site, device).filter((step) => !site.recorded(step));

export const recordedHere = (site: Here, device: string): boolean => open(site, device).length === 0;

/** Entries for steps of the device that are still open and that the test answers. */
export const deviceEntries = (site: Here, device: string, test: DeviceTest | undefined): UncountedEntry[] =>
  test === undefined
    ? []
    : open(site, device).flatMap((step) => {
        const evidence = answerOf(step, test);
        return evidence === null ? [] : [{ ...entryOf(step, { ...BLANK, note: remarkOf(test) }, site.record.me), evidence }];
      });

type TestAct = Extract<SiteAct, { device: string }>;

/** Adds acts of the test of one device in their order, and with those that end it well the steps that the test answers. */
export function addToTest(site: Site, device: string, acts: readonly TestAct[]): Promise<boolean> {
  const { me } = site.record;
  const entries = acts.map((act) => actEntry(site.record, act));
  const now = entries.map(({ id, observedAt }, at) => {
    const act = acts[at]!;
    return { id, act, words: {}, by: me, writtenBy: me, at: observedAt, order: `~~${at}` };
  });
  const test = deviceTests([...site.acts, ...now]).get(device);
  return site.addEntries(nextPart(test) === 'whole' ? [...entries, ...deviceEntries(site, device, test)] : entries);
}

/** What could not be reached stands in the remarks, with what its appliance showed. */
const remarkOf = ({ outlets }: DeviceTest): string =>
  outlets
    .filter(({ reached }) => !reached)
    .map(
      ({ where, appliance, back, runs }) =>
        `Not reached: ${where}, ${appliance}${runs ? (back ? ', runs again' : ', not seen running again') : ''}`,
    )
    .join('. ');

/** The device that was looked for is not there. */
export const noneHere = (site: Here, device: string): UncountedEntry[] =>
  open(site, device).map((step) => entryOf(step, { ...BLANK, outcome: 'none_at_property' }, site.record.me));
