// Whose phone an entry comes from, and how wrong its clock is.
import { refuse, type Refusal } from '@backsight/domain/shared/outcome';
import type { SiteAct } from '@backsight/domain/sitework/act';
import { clockOffset } from '@backsight/domain/sitework/order';
import { hearDevice, ownerOfDevice } from '@backsight/store/sitework/offline';
import type { Work } from '../../run.ts';

/** The phone and its clock at sending; without them the time of arrival counts. */
export type Device = { deviceId?: string | undefined; sentAt?: string | undefined };

export type Hand = {
  writer: string;
  /** Why nothing of this phone is taken. */
  refusal: Refusal | null;
  /** What is kept with a row that was written at this time of the phone's clock. */
  /** Times of the phone's clock, set right where it is wrong by more than some minutes: then they are about right, and none lies ahead. */
  setRight: <T extends Timed>(given: T) => T;
  on: (writtenAt: string | undefined) => { deviceId: string | null; writtenAt: Date | null; clockOffsetMs: number | null };
};

type Timed = { observedAt: string; observedApprox: boolean; act?: SiteAct };

/** Milliseconds. */
const WRONG = 10 * 60_000;

const setRightBy =
  (offset: number | null, now: Date): Hand['setRight'] =>
  (given) => {
    if (offset === null || Math.abs(offset) < WRONG) return given;
    const seen = new Date(Math.min(Date.parse(given.observedAt) + offset, now.getTime())).toISOString();
    const { act } = given;
    const backBy = act?.do === 'went_in' ? new Date(Date.parse(act.backBy) + offset).toISOString() : '';
    return { ...given, observedAt: seen, observedApprox: true, ...(act?.do === 'went_in' ? { act: { ...act, backBy } } : {}) };
  };

/** Notes that the phone was heard. A phone's id belongs to one person: its counter orders one hand's entries. Refusal: device-of-another. */
export async function handOf(work: Work, writer: string, { deviceId, sentAt }: Device): Promise<Hand> {
  const clockOffsetMs = sentAt ? clockOffset(new Date(sentAt), work.now) : null;
  const on: Hand['on'] = (writtenAt) => ({
    deviceId: deviceId ?? null,
    writtenAt: writtenAt ? new Date(writtenAt) : null,
    clockOffsetMs,
  });
  const setRight = setRightBy(clockOffsetMs, work.now);
  if (deviceId === undefined) return { writer, refusal: null, setRight, on };
  const owner = await ownerOfDevice(work.tx, deviceId);
  if (owner !== null && owner !== writer) return { writer, refusal: refuse('device-of-another', {}, 'deviceId'), setRight, on };
  await hearDevice(work.tx, { id: deviceId, personId: writer, clockOffsetMs: clockOffsetMs ?? 0, at: work.now });
  return { writer, refusal: null, setRight, on };
}
