// The address of the figures by month: the months, and one kind of group. Whatever it says is sent as it is, so that a wrong word is told.
import type { FrequencySearch } from '../../api/frequency.ts';

const text = (value: unknown): string | undefined =>
  value === undefined || value === null || value === '' ? undefined : String(value).slice(0, 40);

export function readSpanSearch(raw: Record<string, unknown>): FrequencySearch {
  const found = Object.entries({ from: text(raw['from']), until: text(raw['until']), by: text(raw['by']) });
  return Object.fromEntries(found.filter(([, value]) => value !== undefined)) as FrequencySearch;
}
