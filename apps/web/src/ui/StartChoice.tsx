// Ranked starts to choose from, each with its people, its reason and every part of its score; and why other days are not possible.
import { memo, useState, type ReactNode } from 'react';
import { NativeSelect, Radio, Stack } from '@mantine/core';
import type { StartOption, Starts } from '@backsight/contract/schedule';
import { TextLink } from './links.tsx';
import { clockText, dayText } from './time.ts';
import { Day, When } from './When.tsx';
import classes from './StartChoice.module.css';

export const startKey = (start: { startsAt: string; first: string; second: string | null }): string =>
  `${start.startsAt}|${start.first}|${start.second ?? ''}`;

/** The best are few enough to be read out on the phone; by day all are shown. */
const BEST = 8;

type Props = { starts: Starts; chosen: string | null; onChoose: (start: StartOption) => void };

export function StartChoice({ starts, chosen, onChoose }: Props): ReactNode {
  /** 'best', 'all', or a day. */
  const [shown, setShown] = useState('best');
  const days = daysOf(starts);
  const order = days.some(({ day }) => day === shown) ? shown : shown === 'all' ? 'all' : 'best';
  const choose = (key: string) => {
    const option = starts.options.find((one) => startKey(one) === key);
    if (option) onChoose(option);
  };
  const of = starts.options.filter(({ day }) => order === 'all' || day === order);
  const groups = order === 'best' ? [starts.options.slice(0, BEST)] : byDay(of);
  const closed = starts.blockedDays.filter(({ day }) => day === order);
  return (
    <>
      {starts.options.length === 0 ? <NoStart days={starts.blockedDays} /> : null}
      {days.length > 1 ? (
        <NativeSelect
          label="Which day"
          value={order}
          onChange={(event) => setShown(event.currentTarget.value)}
          data={[
            { value: 'best', label: 'The best of all days' },
            { value: 'all', label: 'Every day, soonest first' },
            ...days.map(({ day, count }) => ({ value: day, label: `${shortDay(day)}: ${countText(count)}` })),
          ]}
          maw="20rem"
        />
      ) : null}
      {closed.map(({ day, reasons }) => (
        <p key={day} role="status">
          {`Not on ${shortDay(day)}: ${reasons.join(' ')}`}
        </p>
      ))}
      {groups.every((options) => options.length === 0) ? null : (
        <Radio.Group
          value={chosen}
          onChange={choose}
          label={order === 'best' ? 'Start and pair, best first' : 'Start and pair, by day'}
          name="start"
          mt="sm"
        >
          {groups.map((options) => (
            <Stack gap={6} mt={6} key={order === 'best' ? 'best' : options[0]!.day}>
              {order === 'best' ? null : (
                <p className={classes.day}>
                  <Day day={options[0]!.day} />
                </p>
              )}
              {options.map((option) => (
                <Option key={startKey(option)} option={option} zoneBeyond={starts.zoneBeyond} roadService={starts.roadService} />
              ))}
            </Stack>
          ))}
        </Radio.Group>
      )}
      {starts.heldBack.length > 0 ? (
        <ul className={classes.heldBack} aria-label="Not offered">
          {starts.heldBack.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      ) : null}
      <BlockedDays days={starts.blockedDays} />
    </>
  );
}

/** Every day of which something is known, in order, with how many starts of it are shown. */
function daysOf({ options, blockedDays }: Starts): { day: string; count: number }[] {
  const counts = new Map(blockedDays.map(({ day }) => [day, 0]));
  for (const { day } of options) counts.set(day, (counts.get(day) ?? 0) + 1);
  return [...counts].map(([day, count]) => ({ day, count })).sort((a, b) => a.day.localeCompare(b.day));
}

/** 'Tue, Dec 1': the days lie close together. */
const shortDay = (day: string): string => dayText(day).replace(/, \d{4}$/, '');

const countText = (count: number): string => (count === 0 ? 'not possible' : count === 1 ? 'one start' : `${count} starts`);

function byDay(options: readonly StartOption[]): StartOption[][] {
  const days = new Map<string, StartOption[]>();
  for (const option of options) days.set(option.day, [...(days.get(option.day) ?? []), option]);
  return [...days.keys()].sort().map((day) => days.get(day)!.sort((a, b) => a.startsAt.localeCompare(b.startsAt) || a.score - b.score));
}

/** Every part, also those that cost nothing: the sum is the score. */
const partsOf = ({ parts }: StartOption): (readonly [string, number])[] => [
  ['Driving added, first', parts.addedDriving[0]],
  ['Driving added, second', parts.addedDriving[1]],
  ['Gap left', parts.idleGap],
  ['After hours', parts.overtime],
  ['Load of the last weeks', parts.fairness],
  ['Went together lately', parts.rotation],
  ['Wishes not met', parts.wish],
];

const SOURCE = { estimate: 'estimated by distance', engine: 'from the road service', manual: 'said by hand' } as const;
/** What is said of the driving times of a start where a road service is set up and has not answered them yet. */
const NOT_ANSWERED = 'The driving is estimated: the road service has not answered these drives yet.';

type OptionProps = { option: StartOption } & Pick<Starts, 'zoneBeyond' | 'roadService'>;

/** Its reasons are written out once they are unfolded: there are many of them, and an answer has to be there at once. */
const Option = memo(function Option({ option, zoneBeyond, roadService }: OptionProps): ReactNode {
  const [open, setOpen] = useState(false);
  return (
    <div className={classes.option}>
      <Radio
        value={startKey(option)}
        label={
          <span>
            <strong>
              <When at={option.startsAt} until={option.endsAt} />
            </strong>{' '}
            {zoneBeyond ? `(${clockText(option.startsAt, zoneBeyond)} at the house) ` : ''}· {option.firstName}
            {option.secondName ? ` first, ${option.secondName} second` : ' alone'}
          </span>
        }
      />
      {[...option.marks, ...(roadService && option.travelSource === 'estimate' ? [NOT_ANSWERED] : [])].map((mark) => (
        <p key={mark} className={classes.mark}>
          {mark}
        </p>
      ))}
      <details onToggle={(event) => setOpen(event.currentTarget.open)}>
        <summary>Why: {costText(option.score)}</summary>
        {open ? <Why option={option} /> : null}
      </details>
    </div>
  );
});

const Why = ({ option }: { option: StartOption }): ReactNode => (
  <>
    <p>{option.sentence}</p>
    <ul>
      {partsOf(option).map(([name, minutes]) => (
        <li key={name}>
          {name}: {Math.round(minutes)} min
        </li>
      ))}
      {option.travelSource ? <li>Driving times: {SOURCE[option.travelSource]}</li> : null}
      <li>
        Tightest: {option.tightest.kind}, {Math.round(option.tightest.slack)} min to spare
      </li>
    </ul>
  </>
);

/** Less is better; nothing and less than nothing mean that the visit fits in without extra cost. */
const costText = (score: number): string =>
  Math.round(score) <= 0 ? 'fits in without extra driving or waiting' : `costs ${Math.round(score)} minutes of one person's time`;

/** What stands in the way on most days comes first: it is what one can do something about. */
function NoStart({ days }: { days: Starts['blockedDays'] }): ReactNode {
  const counts = new Map<string, number>();
  for (const reason of days.flatMap(({ reasons }) => reasons)) counts.set(reason, (counts.get(reason) ?? 0) + 1);
  const most = [...counts].sort(([, a], [, b]) => b - a)[0];
  return (
    <div role="status">
      <p>
        <strong>No start is possible in these days.</strong>
        {most ? ` On ${most[1]} of ${days.length}: ${most[0]}` : ''}
      </p>
      <p className={classes.mark}>
        What is not known of the house counts as needed, of kit as of people. Say first what is worth asking, put what is missing on file
        under <TextLink to="/kit">Kit</TextLink> or <TextLink to="/people">People</TextLink>, or look at other days.
      </p>
    </div>
  );
}

export function BlockedDays({ days }: { days: Starts['blockedDays'] }): ReactNode {
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
