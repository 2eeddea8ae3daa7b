// Whose phone an entry comes from, and how wrong its clock is.
import { refuse, type Refusal } from '@backsight/domain/shared/outcome';
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
  on: (writtenAt: string | undefined) => { deviceId: string | null; writtenAt: Date | null; clockOffsetMs: number | null };
};

/** Notes that the phone was heard. A phone's id belongs to one person: its counter orders one hand's entries. Refusal: device-of-another. */
export async function handOf(work: Work, writer: string, { deviceId, sentAt }: Device): Promise<Hand> {
  const clockOffsetMs = sentAt ? clockOffset(new Date(sentAt), work.now) : null;
  const on: Hand['on'] = (writtenAt) => ({
    deviceId: deviceId ?? null,
    writtenAt: writtenAt ? new Date(writtenAt) : null,
    clockOffsetMs,
  });
  if (deviceId === undefined) return { writer, refusal: null, on };
  const owner = await ownerOfDevice(work.tx, deviceId);
  if (owner !== null && owner !== writer) return { writer, refusal: refuse('device-of-another', {}, 'deviceId'), on };
  await hearDevice(work.tx, { id: deviceId, personId: writer, clockOffsetMs: clockOffsetMs ?? 0, at: work.now });
  return { writer, refusal: null, on };
}
