// Moves that only go together, with what they save.
import type { ReactNode } from 'react';
import { Button, Checkbox } from '@mantine/core';
import type { PlanGroup } from '@backsight/contract/plans';
import { Compared } from './Compared.tsx';
import classes from './plans.module.css';
import { minutesText } from '../../ui/minutes.ts';

type Props = {
  /** Names of people by their id. */
  names: Readonly<Record<string, string>>;
  group: PlanGroup;
  saves: boolean;
  accepted: boolean;
  ticked: boolean;
  tick: (on: boolean) => void;
  refused: readonly string[];
  /** Accepts this group alone. */
  accept: () => void;
  busy: boolean;
};

export function MoveGroup({ group, names, saves, accepted, ticked, tick, refused, accept, busy }: Props): ReactNode {
  const { moves, savingMinutes, drivingSavedMinutes, away = [] } = group;
  const what = `${moves.length === 1 ? 'One visit' : `${moves.length} visits, together`}`;
  const saving =
    away.length > 0
      ? `needed, because ${away.join(' and ')} ${away.length === 1 ? 'is' : 'are'} away`
      : savingMinutes >= 0
        ? `worth ${minutesText(savingMinutes)}`
        : `costs ${minutesText(-savingMinutes)}`;
  const minutes = Math.round(drivingSavedMinutes);
  const driving = minutes === 0 ? '' : `, ${minutesText(Math.abs(minutes))} ${minutes > 0 ? 'less' : 'more'} driving`;
  const label = (
    <>
      {what}
      {saves ? (
        <>
          : <span className={classes.saving}>{saving}</span>
          {driving}
        </>
      ) : null}
    </>
  );
  return (
    <div className={classes.group}>
      <div>
        {accepted ? (
          <span>
            {label} <span className={classes.soft}>(accepted)</span>
          </span>
        ) : (
          <Checkbox label={label} checked={ticked} onChange={(event) => tick(event.currentTarget.checked)} />
        )}
        <Compared moves={moves} names={names} />
        {accepted ? null : (
          <Button size="compact-md" variant="default" mt="xs" disabled={busy} onClick={accept}>
            {moves.length === 1 ? 'Only accept this one' : 'Only accept these'}
          </Button>
        )}
        {refused.map((sentence) => (
          <p key={sentence} className={classes.refused}>
            Not made: {sentence}
          </p>
        ))}
      </div>
    </div>
  );
}
