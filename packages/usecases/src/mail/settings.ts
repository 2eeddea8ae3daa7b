// How the outbox runs: paused or not, its quiet hours, its reminders, and addresses from which mail came back.
import { isQuiet } from '@backsight/domain/mail/quiet';
import { accept, refuse } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { listBad } from '@backsight/store/mail/badAddresses';
import { findMailSettings, setMailPause, updateMailSettings, type MailSettingsEdit } from '@backsight/store/mail/settings';
import { FIRM_THING, localDay } from '../firm/steps/localDay.ts';
import type { Act } from '../run.ts';

/** Settings, and who has an address from which mail came back. */
export async function readMailSettings(reader: Reader, now: Date) {
  const { pausedAt, ...settings } = await findMailSettings(reader);
  const quiet = isQuiet(now, (await localDay(reader, now)).zone, settings);
  const badAddresses = (await listBad(reader)).map((bad) => ({ ...bad, recordedAt: bad.recordedAt.toISOString() }));
  return { ...settings, quiet, pausedAt: pausedAt?.toISOString() ?? null, badAddresses };
}

export const changeMailSettings: Act<{ version: number; edit: MailSettingsEdit }, { version: number }> = {
  operation: 'mail.settings',
  run: async (work, { version, edit }) => {
    if (!(await updateMailSettings(work.tx, version, edit))) return refuse('changed-meanwhile');
    await work.did('firm', FIRM_THING, { ...edit });
    return accept({ version: version + 1 });
  },
};

/** Nothing leaves while it is paused; what is written meanwhile waits. */
export const pauseMail: Act<{ reason: string }, { paused: boolean }> = {
  operation: 'mail.pause',
  run: async (work, { reason }) => {
    if (work.actor.kind !== 'person') return refuse('not-allowed');
    if ((await findMailSettings(work.tx)).pausedAt) return refuse('mail-paused-already');
    await setMailPause(work.tx, { at: work.now, by: work.actor.id, reason });
    await work.did('firm', FIRM_THING, { mailPaused: true });
    return accept({ paused: true });
  },
};

export const resumeMail: Act<Record<string, never>, { paused: boolean }> = {
  operation: 'mail.resume',
  run: async (work) => {
    if (!(await findMailSettings(work.tx)).pausedAt) return refuse('mail-not-paused');
    await setMailPause(work.tx, null);
    await work.did('firm', FIRM_THING, { mailPaused: false });
    return accept({ paused: false });
  },
};
