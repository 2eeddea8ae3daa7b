// A table to take away: as comma-separated text, or as a workbook.
import type { ReactNode } from 'react';

/** `csv`: address of the table as text; its workbook stands beside it. `of` names the table where a page has several. */
export function TableFiles({ csv, of }: { csv: string; of?: string }): ReactNode {
  const [path, query = ''] = csv.split('?');
  const workbook = path!.replace(/\.csv$/, '.xlsx') + (query ? `?${query}` : '');
  const named = of ? `: ${of}` : '';
  return (
    <span>
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
