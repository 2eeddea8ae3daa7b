// A table to take away: as comma-separated text, or as a workbook.
import type { ReactNode } from 'react';
import { ROWS_SHOWN } from '@backsight/contract/liability/owner';

/** `csv`: address of the table as text; its workbook stands beside it. `of` names the table where a page has several. `rows`: how many a list that may be cut shows. */
export function TableFiles({ csv, of, rows = 0 }: { csv: string; of?: string; rows?: number }): ReactNode {
  const [path, query = ''] = csv.split('?');
  const workbook = path!.replace(/\.csv$/, '.xlsx') + (query ? `?${query}` : '');
  const named = of ? `: ${of}` : '';
  return (
    <span>
      {rows >= ROWS_SHOWN ? `The first ${ROWS_SHOWN} are shown; all are in the table to take away. ` : ''}
      Table as{' '}
      <a href={csv} download aria-label={`Table as CSV${named}`}>
        CSV
      </a>{' '}
      <a href={workbook} download aria-label={`Table as XLSX${named}`}>
        XLSX
      </a>
    </span>
  );
}
