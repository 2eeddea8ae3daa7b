// Changes the firm's settings.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { zoneKnown } from '@backsight/domain/firm/rules';
import { updateFirm, type FirmSettings } from '@backsight/store/firm/settings';
import type { Act, Work } from '../run.ts';
import { FIRM_THING } from './steps/localDay.ts';

export type ChangeFirmInput = { version: number; edit: Partial<FirmSettings> };

export const changeFirm: Act<ChangeFirmInput, { version: number }> = { operation: 'firm.change', run: change };

async function change(work: Work, { version, edit }: ChangeFirmInput): Promise<Outcome<{ version: number }>> {
  if (edit.zone !== undefined) {
    const known = zoneKnown(edit.zone);
    if (!known.ok) return known;
  }
  if (!(await updateFirm(work.tx, version, edit))) return refuse('changed-meanwhile');
  await work.did('firm', FIRM_THING, {
    changed: Object.keys(edit),
    ...(edit.holdMinutes === undefined ? {} : { holdMinutes: edit.holdMinutes }),
    ...(edit.graceDays === undefined ? {} : { graceDays: edit.graceDays }),
  });
  return accept({ version: version + 1 });
}
