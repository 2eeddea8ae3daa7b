// What lies over all rows of the board: lines of the hours, closed times, the ties of pairs, and the visit in hand where it was and where it would be.
import type { ReactNode } from 'react';
import { clockText } from '../../ui/time.ts';
import { instantAt, minuteOf, placeAmong, ROW, type Board, type Span } from './geometry.ts';
import { sameSpot, type Held, type Spot } from './spot.ts';
import classes from './board.module.css';

/** A time that is closed for weather. */
export type Band = { id: string; startsAt: string; endsAt: string; what: string };
type Props = { board: Board; held: Held | null; bands: readonly Band[]; wide: boolean };

export function Overlay({ board, held, bands, wide }: Props): ReactNode {
  return (
    <div className={classes.over} aria-hidden="true">
      <Lines board={board} wide={wide} />
      <Closed board={board} bands={bands} />
      {board.ties.map(({ visitId, at, minute, top, bottom }) => (
        <span
          key={visitId}
          className={classes.tie}
          data-held={held?.visit.id === visitId || undefined}
          style={{ insetInlineStart: placeAmong(board, at, { start: minute, end: minute }).insetInlineStart, ...between(top, bottom) }}
        />
      ))}
      {held ? <InHand board={board} held={held} /> : null}
    </div>
  );
}

const between = (top: number, bottom: number) => ({ top: top * ROW + ROW / 2, height: (bottom - top) * ROW });

/** Every hour of a day alone, noon where several days share the width. */
function Lines({ board, wide }: Pick<Props, 'board' | 'wide'>): ReactNode {
  const { frames, days } = board;
  return days.flatMap((day, at) => {
    const { from, until } = frames[at]!;
    return Array.from({ length: (until - from) / 60 - 1 }, (_, n) => from + (n + 1) * 60)
      .filter((minute) => wide || minute === 720)
      .map((minute) => (
        <span
          key={`${day} ${minute}`}
          className={classes.line}
          style={{ insetInlineStart: placeAmong(board, at, { start: minute, end: minute }).insetInlineStart }}
        />
      ));
  });
}

function Closed({ board, bands }: Pick<Props, 'board' | 'bands'>): ReactNode {
  return bands.flatMap(({ id, startsAt, endsAt, what }) =>
    board.days.flatMap((day, at) => {
      const span: Span = { start: minuteOf(startsAt, day, board.zone), end: minuteOf(endsAt, day, board.zone) };
      if (span.start >= board.frames[at]!.until || span.end <= board.frames[at]!.from) return [];
      return [
        <span key={`${id} ${day}`} className={classes.closed} style={placeAmong(board, at, span)}>
          closed: {what}
        </span>,
      ];
    }),
  );
}

function InHand({ board, held: { visit, was, spot } }: { board: Board; held: Held }): ReactNode {
  const minutes = Math.round((Date.parse(visit.endsAt) - Date.parse(visit.startsAt)) / 60_000);
  return (
    <>
      {sameSpot(was, spot) ? null : <Place board={board} spot={was} minutes={minutes} className={classes.was} words="was" />}
      <Place
        board={board}
        spot={spot}
        minutes={minutes}
        className={classes.hand}
        words={clockText(instantAt(spot.day, spot.minute, board.zone), board.zone)}
      />
    </>
  );
}

type PlaceProps = { board: Board; spot: Spot; minutes: number; className: string | undefined; words: string };

function Place({ board, spot, minutes, className, words }: PlaceProps): ReactNode {
  const at = board.days.indexOf(spot.day);
  if (at < 0) return null;
  const rows = [spot.first, spot.second].map((id) => board.rows.findIndex(({ person }) => person.id === id)).filter((row) => row >= 0);
  const along = placeAmong(board, at, { start: spot.minute, end: spot.minute + minutes });
  const [top, bottom] = [Math.min(...rows), Math.max(...rows)];
  return (
    <>
      {rows.map((row) => (
        <span
          key={row}
          className={className}
          data-in-hand={className === classes.hand || undefined}
          style={{ ...along, top: row * ROW + 4 }}
        >
          {words}
        </span>
      ))}
      {bottom > top ? (
        <span className={classes.tie} data-held style={{ insetInlineStart: along.insetInlineStart, ...between(top, bottom) }} />
      ) : null}
    </>
  );
}
