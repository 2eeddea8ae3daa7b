// The addresses of the rows behind the owner's page. Whatever they say is sent as it is, so that a wrong word is told.
import type { DaysSearch, EntriesSearch, OpenSearch, WindowJobsSearch } from '../../api/owner.ts';

type Raw = Record<string, unknown>;
const parts = (raw: Raw, keys: readonly string[]): Record<string, string> =>
  Object.fromEntries(
    keys.filter((key) => raw[key] !== undefined && raw[key] !== null && raw[key] !== '').map((key) => [key, String(raw[key]).slice(0, 60)]),
  );

export const readDays = (raw: Raw): DaysSearch => parts(raw, ['from', 'to']);
export const readEntriesSearch = (raw: Raw): EntriesSearch => parts(raw, ['from', 'to', 'inspected', 'after']);
export const readMonth = (raw: Raw): { inspected?: string } => parts(raw, ['inspected']);
export const readOpenSearch = (raw: Raw): OpenSearch => parts(raw, ['state', 'age']) as OpenSearch;
export const readWindowJobsSearch = (raw: Raw): WindowJobsSearch =>
  parts(raw, ['inspected', 'closes', 'by', 'only', 'page']) as WindowJobsSearch;
