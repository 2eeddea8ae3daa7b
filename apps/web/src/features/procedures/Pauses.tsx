// A preview of the pages that a pair gets: what is done first and then confirmed together, and where a pause is too short to be one.
import { useState, type ReactNode } from 'react';
import { Button, NativeSelect } from '@mantine/core';
import type { Procedure, Step } from '@backsight/domain/procedures/step';
import { FEWEST, joined, pausesOf, type Join, type Pause, type PauseHouse } from '@backsight/domain/sitework/pauses';
import classes from './procedures.module.css';

const HOUSES: readonly { value: PauseHouse; label: string }[] = [
  { value: 'most', label: 'a house at which every rule holds, one thing of each kind' },
  { value: 'fewest', label: 'a house at which only steps without a rule apply' },
];

type Props = { procedure: Procedure; /** Absent where it is only looked at. */ onChange?: (steps: Step[]) => void };

export function Pauses({ procedure, onChange }: Props): ReactNode {
  const [house, setHouse] = useState<PauseHouse>('most');
  const pages = pausesOf(procedure, house);
  const short = pages.filter((page) => page.short);
  const join = onChange ? (how: Join) => onChange(joined(procedure.steps, how)) : null;
  return (
    <>
      <NativeSelect
        maw={460}
        label="As the pair gets it at"
        data={[...HOUSES]}
        value={house}
        onChange={(event) => setHouse(event.currentTarget.value as PauseHouse)}
      />
      <p aria-live="polite">
        {pages.length} {pages.length === 1 ? 'page' : 'pages'}, one press each.{' '}
        {short.length === 0
          ? `Every pause has ${FEWEST} lines or more.`
          : `${short.length} ${short.length === 1 ? 'pause has' : 'pauses have'} fewer than ${FEWEST} lines; nothing is refused for it.`}
      </p>
      <ol className={classes.pauses}>
        {pages.map((page) => (
          <li key={page.steps[0]!.stepKey + String(page.steps[0]!.itemId)}>
            <PageLine page={page} onJoin={join} />
          </li>
        ))}
      </ol>
    </>
  );
}

const KINDS = { read_then_do: 'Read, then do', do_then_confirm: 'Do, then confirm' };

function PageLine({ page, onJoin }: { page: Pause; onJoin: ((how: Join) => void) | null }): ReactNode {
  const [first] = page.steps;
  const alone = page.kind === 'one';
  const same = page.steps.every(({ item }) => item === first!.item);
  const kind = first!.partnerCheck ? 'Each of you, independently' : KINDS[first!.style];
  return (
    <>
      <strong>
        {alone ? kind : `Do, then confirm ${page.steps.length} lines`}
        {same && first!.item ? `, for each ${first!.item}` : ''}
        {alone ? `: ${first!.title}` : ''}
      </strong>
      {alone ? null : (
        <ul>
          {page.steps.map(({ stepKey, title, item }) => (
            <li key={stepKey}>
              {title}
              {item && !same ? ` (${item})` : ''}
            </li>
          ))}
        </ul>
      )}
      {page.short ? <Short page={page} onJoin={onJoin} /> : null}
    </>
  );
}

/** A warning, and the way out of it where there is one. */
function Short({ page: { join, steps }, onJoin }: { page: Pause; onJoin: ((how: Join) => void) | null }): ReactNode {
  if (join === null)
    return (
      <p className={classes.soft}>
        Fewer than {FEWEST} lines. It cannot join another pause: what stands around it is in the way, or for other things.
      </p>
    );
  const what = steps.length === 1 ? 'It' : 'They';
  return (
    <p className={classes.short}>
      <span>
        Fewer than {FEWEST} lines. {what} may stand {join.side} "{join.ofTitle}", together {join.lines} lines.
      </span>
      {onJoin ? (
        <Button variant="default" size="compact-sm" aria-label={`Join them: ${steps[0]!.title}`} onClick={() => onJoin(join)}>
          Join them
        </Button>
      ) : null}
    </p>
  );
}
