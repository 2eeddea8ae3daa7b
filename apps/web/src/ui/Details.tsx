// What is on file about one thing: names at the left, values at the right, stacked on a phone.
import { Fragment, type ReactNode } from 'react';
import classes from './Details.module.css';

/** `short`: many short values, in two columns where there is room. */
export function Details({
  rows,
  short = false,
}: {
  rows: readonly (readonly [name: string, value: ReactNode])[];
  short?: boolean;
}): ReactNode {
  return (
    <dl className={classes.list} data-short={short || undefined}>
      {rows.map(([name, value]) => (
        <Fragment key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </Fragment>
      ))}
    </dl>
  );
}
