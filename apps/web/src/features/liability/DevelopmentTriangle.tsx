// The triangle itself: known amounts by age, the latest of each period, and what is expected to follow.
import type { ReactNode } from 'react';
import { VisuallyHidden } from '@mantine/core';
import type { Development, DevelopmentOrigin } from '@backsight/contract/liability/development';
import { dayText } from '../../ui/time.ts';
import { COUNTED, short } from './developmentWords.ts';
import classes from './DevelopmentTriangle.module.css';

/** One `th` for each age and each period. Latest amounts stand in a frame, expected ones are slanted, dashed and marked. */
export function DevelopmentTriangle({ data }: { data: Development }): ReactNode {
  const { origins, of, by, folded, notInspected, asOf, wholeUntil } = data;
  const ages = origins[0]!.cells.length;
  const caption = `${COUNTED[of]} by ${by} of inspection and age`;
  return (
    <>
      <p className={classes.key}>
        <span className={classes.latest}>in a frame</span> latest, of {dayText(asOf)}
        {wholeUntil === asOf ? '' : `; its ${by} still runs`}; <span className={classes.expected}>≈ slanted</span> expected.
        {of === 'callbacks' ? '' : ' Whole dollars; the table (CSV) has the cents.'} Age 1 is the end of the {by} of inspection itself.
      </p>
      {/* Whoever has no mouse must be able to scroll it. */}
      {/* oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- a wide table is scrolled by the arrow keys */}
      <div className={classes.scroll} role="region" aria-label={caption} tabIndex={0}>
        <table className={classes.triangle}>
          <caption>
            <VisuallyHidden>{caption}</VisuallyHidden>
          </caption>
          <thead>
            <tr>
              <th scope="col" rowSpan={2}>
                Inspected in
              </th>
              <th scope="col" rowSpan={2}>
                Jobs
              </th>
              <th scope="colgroup" colSpan={ages}>{`Age in ${by}s`}</th>
            </tr>
            <tr>
              {Array.from({ length: ages }, (_, at) => (
                <th key={at} scope="col">
                  {at + 1}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {folded ? (
              <tr>
                <th scope="row">{folded.name}</th>
                <td>{folded.jobs.toLocaleString('en-US')}</td>
                <td colSpan={ages} className={classes.folded}>
                  {`${folded.periods} older ${by}s are folded into this line: ${short(of, folded.latest)}, taken as complete.`}
                </td>
              </tr>
            ) : null}
            {origins.map((origin) => (
              <Row key={origin.name} origin={origin} of={of} ages={ages} />
            ))}
          </tbody>
        </table>
      </div>
      {notInspected === 0 ? null : (
        <p>{`${short(of, notInspected)} more belong to jobs that were not inspected by then, and stand in no line.`}</p>
      )}
    </>
  );
}

type RowProps = { origin: DevelopmentOrigin; of: Development['of']; ages: number };

function Row({ origin: { name, jobs, cells, outlook }, of, ages }: RowProps): ReactNode {
  const rest = ages - cells.length - (outlook?.projected.length ?? 0);
  return (
    <tr>
      <th scope="row">{name}</th>
      <td>{jobs.toLocaleString('en-US')}</td>
      {cells.map((cell, at) =>
        at === cells.length - 1 ? (
          <td key={at}>
            <strong className={classes.latest}>{short(of, cell)}</strong>
            <VisuallyHidden> latest</VisuallyHidden>
          </td>
        ) : (
          <td key={at}>{short(of, cell)}</td>
        ),
      )}
      {outlook?.projected.map((value, at) => (
        <td key={`expected ${at + 1}`}>
          <em className={classes.expected}>
            <span aria-hidden="true">≈ </span>
            <VisuallyHidden>expected </VisuallyHidden>
            {short(of, value)}
          </em>
        </td>
      ))}
      {rest > 0 ? <td colSpan={rest}>{''}</td> : null}
    </tr>
  );
}
