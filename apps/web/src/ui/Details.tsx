// What is on file about one thing: names at the left, values at the right, stacked on a phone.
import { Fragment, type ReactNode } from 'react';
import classes from './Details.module.css';

export function Details({ rows }: { rows: readonly (readonly [name: string, value: ReactNode])[] }): ReactNode {
  return (
    <dl className={classes.list}>
      {rows.map(([name, value]) => <Fragment key={name}><dt>{name}</dt><dd>{value}</dd></Fragment>)}
    </dl>
  );
}
