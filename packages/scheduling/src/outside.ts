// Outside providers of one day: whose papers hold, and at which starts each needed service has somebody free.
import { sayDay } from './time.ts';
import type { Day, Minute } from './time.ts';
import type { OutsideNeed, OutsideProvider, StartQuery } from './world.ts';

const holds = (until: Day | null, day: Day): boolean => until === null || day <= until;

/** License and insurance certificate are valid on the day, both ends included. */
export const papersHold = (provider: OutsideProvider, day: Day): boolean =>
  holds(provider.licensedUntil, day) && holds(provider.insuredUntil, day);

/** May come and is nowhere else when the visit starts at `start`. */
export function providerFree(provider: OutsideProvider, day: Day, start: Minute): boolean {
  const from = start + provider.offset;
  const until = from + provider.minutes;
  return papersHold(provider, day) && !provider.busy.some((one) => one.day === day && one.start < until && from < one.end);
}

/** The provider who takes the service at this start: the first that is free, in the order given. */
export const providerAt = (need: OutsideNeed, day: Day, start: Minute): OutsideProvider | undefined =>
  need.providers.find((provider) => providerFree(provider, day, start));

/** Tells of a start whether every outside service has somebody; null when nothing is asked or everybody is free all day. */
export function outsideGate(query: StartQuery, day: Day): ((start: Minute) => boolean) | null {
  const scarce = (query.outside ?? []).filter(
    ({ providers }) => !providers.some((one) => papersHold(one, day) && !one.busy.some((busy) => busy.day === day)),
  );
  return scarce.length === 0 ? null : (start) => scarce.every((need) => providerAt(need, day, start) !== undefined);
}

function lapsedSaid({ name, licensedUntil, insuredUntil }: OutsideProvider, day: Day): string {
  const [paper, until] = holds(licensedUntil, day) ? ['insurance certificate', insuredUntil!] : ['license', licensedUntil!];
  return `the ${paper} of ${name} lapsed on ${sayDay(until)}`;
}

/** Why a service has nobody on the day, or at its starts. */
export function outsideSaid({ service, providers }: OutsideNeed, day: Day): string {
  if (providers.length === 0) return `${service}: no outside provider is on file.`;
  const valid = providers.filter((one) => papersHold(one, day));
  if (valid.length === 0) return `${service}: ${providers.map((one) => lapsedSaid(one, day)).join('; ')}.`;
  return `${service}: ${valid.map(({ name }) => name).join(', ')} ${valid.length === 1 ? 'is' : 'are'} elsewhere when our people are free.`;
}
