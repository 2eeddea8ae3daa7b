// Changes an office: its place and its hours.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { hoursInOrder, type WeekHours } from '@backsight/domain/firm/rules';
import { updateOffice } from '@backsight/store/firm/settings';
import type { Act, Work } from '../run.ts';

export type ChangeOfficeInput = { id: string; edit: { name: string; address: string; lat: number; lon: number; hours: WeekHours } };

export const changeOffice: Act<ChangeOfficeInput, { id: string }> = { operation: 'firm.change-office', run: change };

async function change(work: Work, { id, edit }: ChangeOfficeInput): Promise<Outcome<{ id: string }>> {
  const fits = hoursInOrder(edit.hours);
  if (!fits.ok) return fits;
  if (!(await updateOffice(work.tx, id, edit))) return refuse('not-found', { thing: 'office' });
  await work.did('office', id, { changed: Object.keys(edit) });
  return accept({ id });
}
