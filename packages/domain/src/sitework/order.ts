// The one order of the entries of a record, whichever phone they come from and in whatever order they arrive.
// Within a device its counter decides, never its clock. Between devices the device's own time decides, set right by how far its
// clock was off when the entry came in; it may never run back behind the entry before it.

export type WrittenRow = {
  id: string;
  deviceId?: string | null;
  deviceSeq: number;
  /** By the device's clock. */
  writtenAt?: Date | null;
  /** Milliseconds to add to the device's clock. */
  clockOffsetMs?: number | null;
  /** When the service got it. */
  recordedAt: Date;
};

/** When it was written by the service's clock: never later than it arrived. */
const rightTime = ({ writtenAt, clockOffsetMs, recordedAt }: WrittenRow): number =>
  writtenAt ? Math.min(writtenAt.getTime() + (clockOffsetMs ?? 0), recordedAt.getTime()) : recordedAt.getTime();

const textOf = (at: number, { deviceSeq, id }: WrittenRow): string =>
  `${new Date(at).toISOString()}/${String(deviceSeq).padStart(10, '0')}/${id}`;

/** A text for each entry id that sorts as the entries were made. It depends on what is there, not on how it came. */
export function orderOf(rows: readonly WrittenRow[]): Map<string, string> {
  const order = new Map<string, string>();
  const newest = new Map<string, number>();
  for (const row of [...rows].sort((a, b) => a.deviceSeq - b.deviceSeq || (a.id < b.id ? -1 : 1))) {
    const at = row.deviceId ? Math.max(rightTime(row), newest.get(row.deviceId) ?? -Infinity) : rightTime(row);
    if (row.deviceId) newest.set(row.deviceId, at);
    order.set(row.id, textOf(at, row));
  }
  return order;
}

/**
 * By how much a device's clock is behind the service's, in milliseconds: negative when it runs ahead. `sentAt` is the device's clock at
 * sending; what the way took counts as the clock's error, which is seconds where clocks are wrong by hours.
 */
export const clockOffset = (sentAt: Date, receivedAt: Date): number => receivedAt.getTime() - sentAt.getTime();
