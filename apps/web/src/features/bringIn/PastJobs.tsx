// What jobs that were done before count for, said before they are brought in and on their page afterwards.
import type { ReactNode } from 'react';
import classes from './bringIn.module.css';

export const PastJobs = (): ReactNode => (
  <details className={classes.counting}>
    <summary>What past jobs count for here</summary>
    <ul>
      <li>
        They stand in the list of jobs, in the search, and in the history of the house and the client; whoever went for another client is
        known.
      </li>
      <li>Their claim windows are open as long as the law of the state says, from the day of the inspection or of the report.</li>
      <li>
        They have no record of steps, no agreement, no report and no invoice here. Nothing is owed, no account changes, nobody is paid for
        them, and no mail goes out.
      </li>
      <li>
        Rates of callbacks, figures of steps and of people leave them out, because what was complained about before is not here. A callback
        that comes in later is worked on as any other, and its cost counts.
      </li>
    </ul>
  </details>
);
