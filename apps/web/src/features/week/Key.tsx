// What the marks of the board mean.
import type { ReactNode } from 'react';
import classes from './week.module.css';

const MARKS: readonly (readonly [string, string])[] = [
  ['A1, A2, A+', 'the same letter is one visit: goes first, second, comes along; a line joins the two'],
  ['!2', 'two things still to get for the job'],
  ['held', 'kept free for a caller, dashed'],
  ['striped bar', 'driving to, between and from visits'],
  ['striped field', 'away; with dots around it only asked for'],
  ['grey', 'outside working hours'],
  ['crossed out', 'is not sent that day; the words below say why'],
];

export function Key(): ReactNode {
  return (
    <details className={classes.key}>
      <summary>What the marks mean, and the keys</summary>
      <dl>
        {MARKS.map(([mark, means]) => (
          <div key={mark}>
            <dt>{mark}</dt>
            <dd>{means}</dd>
          </div>
        ))}
      </dl>
      <p>
        Arrows walk from visit to visit, Enter takes one in hand. In hand: left and right 15 minutes (an hour with Shift), page up and down
        a day, up and down another person, Enter puts it down, Escape leaves it. Or drag it. Nothing changes, and nobody is told, before it
        is put down.
      </p>
    </details>
  );
}
