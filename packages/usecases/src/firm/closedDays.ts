// Days on which the office is closed besides its usual hours.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { deleteClosedDay, putClosedDay } from '@backsight/store/firm/settings';
import type { Act, Work } from '../run.ts';
import { FIRM_THING } from './steps/localDay.ts';

export const closeDay: Act<{ day: string; name: string }, { day: string }> = { operation: 'firm.close-day', run: close };

async function close(work: Work, { day, name }: { day: string; name: string }): Promise<Outcome<{ day: string }>> {
  await putClosedDay(work.tx, day, name);
  await work.did('firm', FIRM_THING, { closedDay: day });
  return accept({ day });
}

export const openDay: Act<{ day: string }, { day: string }> = { operation: 'firm.open-day', run: open };

async function open(work: Work, { day }: { day: string }): Promise<Outcome<{ day: string }>> {
  if ((await deleteClosedDay(work.tx, day)) === 0) return refuse('not-found', { thing: 'closed day' });
  await work.did('firm', FIRM_THING, { openedDay: day });
  return accept({ day });
}
