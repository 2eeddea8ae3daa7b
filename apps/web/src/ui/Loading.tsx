// Shown while a screen waits for the service: nothing for the first 200 ms, which are no wait, then the shape of what comes.
import type { ReactNode } from 'react';
import classes from './Loading.module.css';

export function Loading(): ReactNode {
  return (
    <div className={classes.loading} role="status">
      <p>One moment ...</p>
      <span className={classes.row} />
      <span className={classes.row} />
      <span className={classes.row} />
    </div>
  );
}
