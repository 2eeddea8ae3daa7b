// What the firm has on file about itself.
import { refuse, type Outcome, accept } from '@backsight/domain/shared/outcome';
import { readWeekHours } from '@backsight/domain/firm/stored';
import type { WeekHours } from '@backsight/domain/firm/rules';
import { findWholeFirm, listClosedDays, listOffices, type WholeFirm } from '@backsight/store/firm/settings';
import { listLimits, listLoans, listPolicies, type LimitRow, type LoanRow, type PolicyRow } from '@backsight/store/firm/authority';
import type { Reader } from '@backsight/store/database';
import { localDay } from './steps/localDay.ts';

export type FirmPage = WholeFirm & {
  offices: { id: string; name: string; zone: string; jurisdiction: string; address: string; lat: number; lon: number; hours: WeekHours }[];
  closedDays: { day: string; name: string }[];
};

/** The firm with its offices and the closed days from today on. */
export async function readFirm(reader: Reader, now: Date): Promise<Outcome<FirmPage>> {
  const firm = await findWholeFirm(reader);
  if (!firm) return refuse('not-found', { thing: 'firm' });
  const { today } = await localDay(reader, now);
  const offices = (await listOffices(reader)).map((office) => ({ ...office, hours: readWeekHours(office.hours) }));
  return accept({ ...firm, offices, closedDays: await listClosedDays(reader, today) });
}

/** Insurance, approval limits and the loans that count today or later. */
export async function readAuthority(reader: Reader, now: Date): Promise<{ policies: PolicyRow[]; limits: LimitRow[]; loans: LoanRow[] }> {
  const { today } = await localDay(reader, now);
  return { policies: await listPolicies(reader), limits: await listLimits(reader), loans: await listLoans(reader, today) };
}
