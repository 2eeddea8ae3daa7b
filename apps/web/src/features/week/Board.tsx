// The week of people: people as rows, days as columns of time. Visits are walked to with the arrows, taken in hand by Enter, a click or dragging.
import { useDeferredValue, useEffect, useMemo, useRef, type CSSProperties, type KeyboardEvent, type ReactNode } from 'react';
import { DateTime } from 'luxon';
import { LEAST, NAME, percent, ROW, shareOf, type Board as BoardOf, type Frame, type Visit } from './geometry.ts';
import { Named } from './Named.tsx';
import { Overlay, type Band } from './Overlay.tsx';
import { PersonRow } from './PersonRow.tsx';
import type { Held } from './spot.ts';
import { useDrag } from './useDrag.ts';
import { standsOf, walk } from './walk.ts';
import classes from './board.module.css';

const FIRST_ROWS = 14;

type Props = {
  label: string;
  board: BoardOf;
  today: string;
  held: Held | null;
  bands: readonly Band[];
  onTake: (visit: Visit, personId: string) => void;
  onHold: (held: Held) => void;
};

export function Board({ label, board, today, held, bands, onTake, onHold }: Props): ReactNode {
  const rows = useRef<HTMLDivElement>(null);
  const shown = useDeferredValue(board.rows, board.rows.slice(0, FIRST_ROWS));
  const stands = useMemo(() => standsOf(board.rows), [board]);
  const names = useMemo(() => new Map(board.rows.map(({ person }) => [person.id, person.name])), [board]);
  const wide = board.days.length === 1;
  const drag = useDrag({ board, held, rows, onTake, onHold });
  useOneTabStop(rows, stands[0]?.id, shown);
  useInSight(rows, held);
  const onKeyDown = (event: KeyboardEvent) => {
    const to = walk(stands, (event.target as HTMLElement).id, event.key);
    if (to === null) return;
    event.preventDefault();
    document.getElementById(to)?.focus();
  };
  const size = { '--name': `${NAME}px`, '--row': `${ROW}px`, '--least': `${LEAST}px`, '--days': board.days.length } as CSSProperties;
  return (
    <>
      <div className={classes.scroll} style={size}>
        {/* The keys and the pointer are handled for all visits at once; each visit is a button of its own. */}
        <div
          role="grid"
          tabIndex={-1}
          aria-label={label}
          aria-rowcount={board.rows.length + 1}
          aria-colcount={board.days.length + 1}
          className={classes.board}
          onKeyDown={onKeyDown}
        >
          <Head days={board.days} frames={board.frames} today={today} wide={wide} />
          <div role="rowgroup" ref={rows} className={classes.rows} {...drag}>
            {shown.map((row, index) => (
              <PersonRow key={row.person.id} row={row} index={index} zone={board.zone} frames={board.frames} {...{ today, names, wide }} />
            ))}
            <Overlay board={board} held={held} bands={bands} wide={wide} />
          </div>
        </div>
      </div>
      <Named rows={rows} />
    </>
  );
}

/** The board is one stop of the Tab key: the first visit, then the one that had the focus last. */
function useOneTabStop(rows: { current: HTMLElement | null }, first: string | undefined, shown: unknown): void {
  useEffect(() => {
    const box = rows.current;
    if (!box) return;
    const stop = (to: Element | null): void => {
      if (!to) return;
      for (const old of box.querySelectorAll('[data-visit][tabindex="0"]')) old.setAttribute('tabindex', '-1');
      to.setAttribute('tabindex', '0');
    };
    if (!box.querySelector('[data-visit][tabindex="0"]') && first) stop(document.getElementById(first));
    const follow = (event: FocusEvent): void => stop((event.target as Element).closest('[data-visit]'));
    box.addEventListener('focusin', follow);
    return () => box.removeEventListener('focusin', follow);
  }, [rows, first, shown]);
}

/** What is in hand stays in sight. */
function useInSight(rows: { current: HTMLElement | null }, held: Held | null): void {
  useEffect(() => {
    if (held) rows.current?.querySelector('[data-in-hand]')?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  }, [rows, held]);
}

const hourWord = (minute: number): string =>
  DateTime.fromObject({ hour: Math.floor(minute / 60) % 24 }, { zone: 'utc', locale: 'en-US' })
    .toFormat('ha')
    .toLowerCase();

type HeadProps = { days: readonly string[]; frames: readonly Frame[]; today: string; wide: boolean };

function Head({ days, frames, today, wide }: HeadProps): ReactNode {
  return (
    <div role="row" aria-rowindex={1} className={classes.head}>
      <div role="columnheader" className={classes.corner}>
        Person
      </div>
      {days.map((day, at) => (
        <div role="columnheader" key={day} aria-current={day === today ? 'date' : undefined}>
          {DateTime.fromISO(day, { zone: 'utc', locale: 'en-US' }).toFormat('ccc, LLL d')}
          {day === today ? ', today' : ''}
          <Ticks frame={frames[at]!} step={wide ? 60 : 240} />
        </div>
      ))}
    </div>
  );
}

function Ticks({ frame, step }: { frame: Frame; step: number }): ReactNode {
  const from = Math.ceil(frame.from / step) * step;
  const every = Array.from({ length: Math.max(0, Math.ceil((frame.until - from) / step)) }, (_, n) => from + n * step);
  // At the end of a day there is no room for the word.
  const ticks = every.filter((minute) => shareOf(frame, minute) < (step > 60 ? 0.85 : 0.97));
  return (
    <div className={classes.ticks} aria-hidden="true">
      {ticks.map((minute) => (
        <span key={minute} style={{ insetInlineStart: percent(shareOf(frame, minute)) }}>
          {hourWord(minute)}
        </span>
      ))}
    </div>
  );
}
