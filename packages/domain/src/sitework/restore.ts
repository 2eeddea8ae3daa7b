// Leave it as you found it: what this pair changed and has not put back. What was found off is none of it and stays off.
import { CHANGES, type Change, type KnownAct } from './act.ts';
import { deviceTests, notBack, wasInterrupted } from './deviceTest.ts';
import { inOrder } from './inOrder.ts';

/** `ref` names it in a later act: the id of the change, of the receptacle, or of the device. */
export type ToRestore = {
  ref: string;
  kind: 'change' | 'outlet' | 'device';
  thing: Change | null;
  where: string;
  was: string;
  by: string | null;
  device: string | null;
};

const changesOf = (acts: readonly KnownAct[], back: ReadonlySet<string>): ToRestore[] =>
  acts.flatMap(({ id, act, words, by }): ToRestore[] =>
    act.do !== 'changed' || back.has(id)
      ? []
      : [{ ref: id, kind: 'change', thing: act.thing, where: words.where ?? '', was: words.was ?? '', by, device: null }],
  );

const fromTests = (acts: readonly KnownAct[]): ToRestore[] =>
  [...deviceTests(acts).values()].flatMap((test): ToRestore[] => {
    const base = { thing: null, was: '', by: null, device: test.device };
    const unset = wasInterrupted(test) && test.resets !== true;
    return [
      ...(unset ? [{ ...base, ref: test.device, kind: 'device' as const, where: '' }] : []),
      ...notBack(test).map(({ id, where, reached, appliance }): ToRestore => ({
        ...base,
        ref: id,
        kind: 'outlet',
        where: reached || appliance === '' ? where : `${where}: ${appliance}`,
      })),
    ];
  });

/** Everything that is not as it was, whether or not anybody was told. */
export function notRestored(acts: readonly KnownAct[]): ToRestore[] {
  const ordered = inOrder(acts);
  const back = new Set(ordered.flatMap(({ act }) => (act.do === 'put_back' ? [act.of] : [])));
  return [...changesOf(ordered, back), ...fromTests(ordered)];
}

/** What was told to client and office on the spot. */
export const toldOf = (acts: readonly KnownAct[]): Set<string> =>
  new Set(acts.flatMap(({ act }) => (act.do === 'told' ? [...act.of] : [])));

/** What keeps the record open: not as it was, and nobody told of it. */
export function stillOpen(acts: readonly KnownAct[]): ToRestore[] {
  const told = toldOf(acts);
  return notRestored(acts).filter(({ ref }) => !told.has(ref));
}

/** In words, for screens and papers: 'thermostat, hall (was 68 F)'. `deviceName` answers what the pair calls a device. */
export const sayToRestore = (one: ToRestore, deviceName: (id: string) => string): string => {
  if (one.kind === 'device') return `Ground-fault device ${deviceName(one.ref)}: not reset`;
  if (one.kind === 'outlet') return `${one.where || 'Receptacle'}: not seen live again after the test of ${deviceName(one.device ?? '')}`;
  const name = CHANGES[one.thing ?? 'other'];
  return `${name.charAt(0).toUpperCase()}${name.slice(1)}, ${one.where}${one.was ? ` (was ${one.was})` : ''}`;
};
