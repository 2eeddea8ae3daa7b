// What a plan would change, in groups that only go together: tick, accept, and hear what no longer fits.
import { useState, type ReactNode } from 'react';
import { Button, Group } from '@mantine/core';
import { useQueryClient } from '@tanstack/react-query';
import type { DayAnswer, PlanVariantAnswer, ShownPlan } from '@backsight/contract/plans';
import { newId } from '../../api/ids.ts';
import { acceptPlan } from '../../api/plans.ts';
import { Empty } from '../../ui/Empty.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { dayText } from '../../ui/time.ts';
import { useSend } from '../../ui/useSend.ts';
import { LeftOut } from './LeftOut.tsx';
import { MoveGroup } from './MoveGroup.tsx';
import classes from './plans.module.css';
import { minutesText, proofText } from './words.ts';

type Props = { plan: ShownPlan; variant: PlanVariantAnswer };

export function Answer({ plan, variant }: Props): ReactNode {
  const queries = useQueryClient();
  /** Against a day that cannot take place as it is booked, nothing is saved. */
  const saves = plan.kind === 'day_plan';
  const open = variant.days.flatMap(({ groups }) => groups.map(({ key }) => key)).filter((key) => !plan.accepted.includes(key));
  const [ticked, setTicked] = useState<readonly string[]>(() => open.filter((key) => !(saves && losesVisit(variant, key))));
  const accept = useSend(acceptPlan, {
    refresh: ['plan', plan.id],
    said: 'Accepted. The people concerned were told.',
    then: () => void queries.invalidateQueries({ queryKey: ['week'] }),
  });
  const chosen = ticked.filter((key) => open.includes(key));
  const refused = new Map(accept.data?.refused.map(({ key, sentences }) => [key, sentences]));
  const tick = (key: string, on: boolean) => setTicked((before) => (on ? [...before, key] : before.filter((one) => one !== key)));
  return (
    <>
      {variant.days
        .filter(({ visits, groups, leftOut }) => visits + groups.length + leftOut.length > 0)
        .map((day) => (
          <Section key={day.day} title={day.toDay ? `${dayText(day.day)} to ${dayText(day.toDay)}, as one` : dayText(day.day)}>
            <Summary day={day} saves={saves} />
            <ul className={classes.groups} hidden={day.groups.length === 0}>
              {day.groups.map((group) => (
                <li key={group.key}>
                  <MoveGroup
                    group={group}
                    saves={saves}
                    accepted={plan.accepted.includes(group.key)}
                    ticked={chosen.includes(group.key)}
                    tick={(on) => tick(group.key, on)}
                    refused={refused.get(group.key) ?? []}
                  />
                </li>
              ))}
            </ul>
            <LeftOut day={day} />
          </Section>
        ))}
      <ProblemNote of={accept.error} />
      {open.length > 0 ? (
        <Group mt="lg">
          <Button
            disabled={chosen.length === 0}
            loading={accept.isPending}
            onClick={() => accept.mutate({ id: plan.id, groups: [...chosen], key: newId() })}
          >
            {chosen.length === open.length ? 'Accept everything' : `Accept ${chosen.length} of ${open.length}`}
          </Button>
          <Button variant="default" onClick={() => setTicked(chosen.length === open.length ? [] : open)}>
            {chosen.length === open.length ? 'Untick all' : 'Tick all'}
          </Button>
        </Group>
      ) : null}
    </>
  );
}

/** Nobody gives up a visit by chance: such a group of a day plan is ticked by hand. */
const losesVisit = ({ days }: PlanVariantAnswer, key: string): boolean =>
  days.some(({ groups }) => groups.some((group) => group.key === key && group.moves.some(({ after }) => after === null)));

function Summary({ day, saves }: { day: DayAnswer; saves: boolean }): ReactNode {
  if (day.groups.length === 0) return <Empty>{`The ${day.visits} visits stay as they are. ${proofText(day)}`}</Empty>;
  const moves = day.groups.reduce((sum, { moves: list }) => sum + list.length, 0);
  return (
    <p>
      {moves} of {day.visits} visits change. {saves ? saved(day) : ''} <span className={classes.soft}>{proofText(day)}</span>
    </p>
  );
}

const saved = ({ savingMinutes, drivingSavedMinutes }: DayAnswer): string => {
  const driving = drivingSavedMinutes >= 0 ? `${minutesText(drivingSavedMinutes)} less` : `${minutesText(-drivingSavedMinutes)} more`;
  return savingMinutes >= 0
    ? `All in all worth ${minutesText(savingMinutes)} of one person’s time; ${driving} driving.`
    : `Costs ${minutesText(-savingMinutes)} of one person’s time more than the day as booked; ${driving} driving.`;
};
