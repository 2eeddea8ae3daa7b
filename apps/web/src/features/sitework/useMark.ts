// Notes when somebody set out to a visit or was there.
import type { z } from 'zod';
import type { dayVisit } from '@backsight/contract/sitework';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { markDrive } from '../../api/travel.ts';
import { useSend } from '../../ui/useSend.ts';

type DayVisit = z.output<typeof dayVisit>;
export type DriveKind = 'set_out' | 'arrived';

/** `mark` says one of both times; `then` runs once the service has it. */
export function useMark(visit: DayVisit, then?: () => void) {
  const me = useMe();
  const send = useSend(markDrive, { refresh: ['my-day'], said: 'The time is noted.', then });
  const mark = (kind: DriveKind, at: string) => send.mutate({ visitId: visit.id, id: newId(), key: newId(), personId: me.id, kind, at });
  return { ...send, mark };
}
