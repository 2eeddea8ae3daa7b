// Ranked starts to choose from, each with its people, its reason and every part of its score; and why other days are not possible.
import type { ReactNode } from 'react';
import { Radio, Stack } from '@mantine/core';
import type { StartOption, Starts } from '@backsight/contract/schedule';
import { clockText } from './time.ts';
import { Day, When } from './When.tsx';
import classes from './StartChoice.module.css';

export const startKey = (start: { startsAt: string; first: string; second: string | null }): string =>
  `${start.startsAt}|${start.first}|${start.second ?? ''}`;

type Props = { starts: Starts; chosen: string | null; onChoose: (start: StartOption) => void };

export function StartChoice({ starts, chosen, onChoose }: Props): ReactNode {
  const choose = (key: string) => {
    const option = starts.options.find((one) => startKey(one) === key);
    if (option) onChoose(option);
  };
  return (
    <>
      {starts.options.length === 0 ? <p role="status">No start is possible in these days. The reasons are below.</p> : null}
      <Radio.Group value={chosen} onChange={choose} label="Start and pair, best first" name="start">
        <Stack gap={6} mt={6}>
          {starts.options.map((option) => (
            <Option key={startKey(option)} option={option} starts={starts} />
          ))}
        </Stack>
      </Radio.Group>
      {starts.heldBack.length > 0 ? (
        <ul className={classes.heldBack} aria-label="Not offered">
          {starts.heldBack.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      ) : null}
      <Blocked days={starts.blockedDays} />
    </>
  );
}

const SOURCE = { estimate: 'estimated by distance', engine: 'from the road service', manual: 'said by hand' } as const;

/** What is said of the driving times of a start where a road service is set up and has not answered them yet. */
const NOT_ANSWERED = 'The driving is estimated: the road service has not answered these drives yet.';

function Option({ option, starts }: { option: StartOption; starts: Starts }): ReactNode {
  const {
    addedDriving: [first, second],
    idleGap,
    overtime,
    fairness,
    rotation,
    wish,
  } = option.parts;
  const rows = [
    ['Driving added, first', first],
    ['Driving added, second', second],
    ['Gap left', idleGap],
    ['After hours', overtime],
    ['Load of the last weeks', fairness],
    ['Went together lately', rotation],
    ['Wishes not met', wish],
  ] as const;
  return (
    <div className={classes.option}>
      <Radio
        value={startKey(option)}
        label={
          <span>
            <strong>
              <When at={option.startsAt} until={option.endsAt} />
            </strong>{' '}
            {starts.zoneBeyond ? `(${clockText(option.startsAt, starts.zoneBeyond)} at the house) ` : ''}· {option.firstName}
            {option.secondName ? ` first, ${option.secondName} second` : ' alone'}
          </span>
        }
      />
      {[...option.marks, ...(starts.roadService && option.travelSource === 'estimate' ? [NOT_ANSWERED] : [])].map((mark) => (
        <p key={mark} className={classes.mark}>
          {mark}
        </p>
      ))}
      <details>
        <summary>Why: {costText(option.score)}</summary>
        <p>{option.sentence}</p>
        <ul>
          {rows
            .filter(([, minutes]) => minutes !== 0)
            .map(([name, minutes]) => (
              <li key={name}>
                {name}: {minutes} min
              </li>
            ))}
          {option.travelSource ? <li>Driving times: {SOURCE[option.travelSource]}</li> : null}
          <li>
            Tightest: {option.tightest.kind}, {Math.round(option.tightest.slack)} min to spare
          </li>
        </ul>
      </details>
    </div>
  );
}

/** Less is better; nothing and less than nothing mean that the visit fits in without extra cost. */
const costText = (score: number): string =>
  Math.round(score) <= 0 ? 'fits in without extra driving or waiting' : `costs ${Math.round(score)} minutes of one person's time`;

function Blocked({ days }: { days: Starts['blockedDays'] }): ReactNode {
  if (days.length === 0) return null;
  return (
    <details className={classes.blocked}>
      <summary>
        Why not on {days.length} other {days.length === 1 ? 'day' : 'days'}
      </summary>
      <ul>
        {days.map(({ day, reasons }) => (
          <li key={day}>
            <Day day={day} />: {reasons.join(' ')}
          </li>
        ))}
      </ul>
    </details>
  );
}
