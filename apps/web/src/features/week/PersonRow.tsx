// One person of the board: the name with what is to be known, then each day as a strip of time with visits, drives and absences.
import { memo, type ReactNode } from 'react';
import { TextLink } from '../../ui/links.tsx';
import { clockText } from '../../ui/time.ts';
import { markOf, placeOf, type Block, type Frame, type Row, type Strip } from './geometry.ts';
import { dayNotes, headNotes, marksOf } from './marks.ts';
import { buttonId } from './walk.ts';
import classes from './board.module.css';

type Props = {
  row: Row;
  index: number;
  frames: readonly Frame[];
  zone: string;
  today: string;
  names: ReadonlyMap<string, string>;
  wide: boolean;
};

export const PersonRow = memo(function PersonRow({ row: { person, strips }, index, frames, ...rest }: Props): ReactNode {
  const notes = headNotes(person, strips[0]!.day.day);
  return (
    <div role="row" aria-rowindex={index + 2} className={classes.row}>
      <div role="rowheader" className={classes.name} title={notes.join('\n')}>
        <TextLink to="/people/$personId" params={{ personId: person.id }}>
          {person.name}
        </TextLink>
        {notes.length > 0 ? (
          <div className={classes.notes} data-wrong={person.lapses.length + person.missing.length > 0 || undefined}>
            {notes.join('; ')}
          </div>
        ) : null}
      </div>
      {strips.map((strip, at) => (
        <DayCell key={strip.day.day} strip={strip} frame={frames[at]!} row={{ person, strips }} {...rest} />
      ))}
    </div>
  );
});

type CellProps = Omit<Props, 'index' | 'frames'> & { strip: Strip; frame: Frame };

function DayCell({ strip, row: { person }, frame, zone, today, names, wide }: CellProps): ReactNode {
  const { day, blocks, drives, away } = strip;
  const marks = marksOf(person, day, today);
  const words = [...marks.map(({ text }) => text), ...dayNotes(day)].join('; ');
  return (
    <div role="gridcell" className={classes.cell} data-barred={marks.some(({ bars }) => bars) || undefined}>
      {day.hours.map((hours) => (
        <span key={hours.start} className={classes.work} style={placeOf(frame, hours)} />
      ))}
      {away.map((one) => (
        <span key={one.start} className={classes.away} data-asked={one.state === 'asked' || undefined} style={placeOf(frame, one)}>
          {one.state === 'asked' ? 'asks' : 'away'}
        </span>
      ))}
      {drives.map(({ leg, ...span }) => (
        <span key={span.start} className={classes.drive} style={placeOf(frame, span)} title={`${leg.minutes} min drive`}>
          {wide ? <span>{leg.minutes}</span> : null}
        </span>
      ))}
      {blocks.map((block) => (
        <VisitButton key={block.visit.id} block={block} strip={strip} personId={person.id} {...{ frame, zone, names, wide }} />
      ))}
      {words ? (
        <div className={classes.notes} data-wrong={marks.length > 0 || undefined} title={words}>
          {marks.length > 0 ? '! ' : ''}
          {words}
        </div>
      ) : null}
    </div>
  );
}

type VisitProps = Pick<CellProps, 'frame' | 'zone' | 'names' | 'wide'> & { block: Block; strip: Strip; personId: string };

const PLACE = { first: '1', second: '2', observer: '+' } as const;
const STATE: Record<string, string> = { held: 'held', on_site: 'on site', done: 'done', ended: 'ended' };

/** Line 1: the start and what state it is in. Line 2: the letter that both of the pair carry, and who goes first. Its name begins with what is seen. */
function VisitButton({ block: { visit, tag, ...span }, strip, personId, frame, zone, names, wide }: VisitProps): ReactNode {
  const state = STATE[visit.state] ?? '';
  const others = visit.withIds.map((id) => names.get(id) ?? 'somebody').join(', ');
  const before = strip.drives.find(({ leg }) => leg.to === visit.id)?.leg.minutes;
  const start = `${clockText(visit.startsAt, zone).replace(/ [AP]M/, '')}${state ? ` ${state}` : ''}${wide ? `, ${visit.address}, ${visit.town}` : ''}`;
  const open = visit.openNeeds > 0 ? ` !${visit.openNeeds}` : '';
  const more = `${PLACE[visit.place]}${open}${wide && others ? ` with ${others}` : ''}`;
  const said = [
    `${start} ${tag}${more}`,
    `${clockText(visit.startsAt, zone)} to ${clockText(visit.endsAt, zone)}`,
    `${visit.address}, ${visit.town}`,
    `pair ${tag}, goes ${visit.place === 'observer' ? 'along' : visit.place}${others ? ` with ${others}` : ''}`,
    ...(open ? [`${visit.openNeeds} still to get`] : []),
    ...(visit.locked ? ['kept from plans'] : []),
    ...(before === undefined ? [] : [`${before} min drive before`]),
  ].join('; ');
  return (
    <button
      type="button"
      id={buttonId(visit.id, personId)}
      data-visit={visit.id}
      data-person={personId}
      data-state={visit.state}
      data-place={visit.place}
      className={classes.visit}
      style={markOf(frame, span)}
      tabIndex={-1}
      aria-label={said}
      title={said}
    >
      <span>{start}</span>{' '}
      <span>
        <b>{tag}</b>
        {more}
      </span>
    </button>
  );
}
