// The list under the go-to box, in groups by kind; each line with what was typed told apart, and one line of what stands around it.
import type { ReactNode } from 'react';
import { When } from '../../ui/When.tsx';
import { pieces, type Choice } from './choices.ts';
import classes from './goTo.module.css';

type Props = {
  id: string;
  shown: boolean;
  choices: readonly Choice[];
  active: number;
  typed: string;
  /** What is said below: how many, that there is nothing, or what went wrong. */
  said: string;
  onChoose: (choice: Choice) => void;
};

export function Choices({ id, shown, choices, active, typed, said, onChoose }: Props): ReactNode {
  const groups = [...new Set(choices.map(({ group }) => group))];
  return (
    <div className={classes.list} hidden={!shown} role="presentation" onMouseDown={(event) => event.preventDefault()}>
      <div id={`${id}-list`} role="listbox" aria-label="Found">
        {groups.map((group) => (
          <div key={group} role="group" aria-label={group}>
            <p className={classes.group} aria-hidden="true">
              {group}
            </p>
            {choices.map((choice, at) =>
              choice.group === group ? (
                <Line key={choice.key} id={`${id}-${at}`} choice={choice} chosen={at === active} typed={typed} onChoose={onChoose} />
              ) : null,
            )}
          </div>
        ))}
      </div>
      {said ? (
        <p className={classes.said} aria-hidden="true">
          {said}
        </p>
      ) : null}
    </div>
  );
}

type Row = { id: string; choice: Choice; chosen: boolean; typed: string; onChoose: (choice: Choice) => void };

function Line({ id, choice, chosen, typed, onChoose }: Row): ReactNode {
  const intoView = (element: HTMLButtonElement | null) => {
    if (chosen) element?.scrollIntoView({ block: 'nearest' });
  };
  return (
    <button
      ref={intoView}
      type="button"
      tabIndex={-1}
      id={id}
      role="option"
      aria-selected={chosen}
      className={classes.line}
      onClick={() => onChoose(choice)}
    >
      <span className={classes.title}>
        <Typed text={choice.title} typed={typed} />
      </span>
      {choice.about || choice.at ? (
        <span className={classes.about}>
          <Typed text={choice.about} typed={typed} />
          {choice.at ? (
            <>
              , <When at={choice.at} />
            </>
          ) : null}
        </span>
      ) : null}
    </button>
  );
}

const Typed = ({ text, typed }: { text: string; typed: string }): ReactNode =>
  pieces(text, typed).map((piece, at) => (piece.typed ? <mark key={at}>{piece.text}</mark> : piece.text));
