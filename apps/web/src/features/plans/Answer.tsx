// What a plan would change, in groups that only go together: tick, accept, and hear what no longer fits.
import { useState, type ReactNode } from 'react';
import { Button, Group } from '@mantine/core';
import { useQueryClient } from '@tanstack/react-query';
import type { DayAnswer, PlanVariantAnswer, ShownPlan } from '@backsight/contract/plans';
import { newId } from '../../api/ids.ts';
import { acceptPlan } from '../../api/plans.ts';
import { Empty } from '../../ui/Empty.tsx';
import { Follows } from '../../ui/Follows.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { dayText } from '../../ui/time.ts';
import { useSend } from '../../ui/useSend.ts';
import { LeftOut } from './LeftOut.tsx';
import { MoveGroup } from './MoveGroup.tsx';
import classes from './plans.module.css';
import { minutesText } from '../../ui/minutes.ts';
import { proofText } from './words.ts';

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
            <Summary day={day} saves={saves} elsewhere={movedElsewhere(variant, day)} />
            <ul className={classes.groups} hidden={day.groups.length === 0}>
              {day.groups.map((group) => (
                <li key={group.key}>
                  <MoveGroup
                    group={group}
                    names={plan.names}
                    accept={() => accept.mutate({ id: plan.id, groups: [group.key], key: newId() })}
                    busy={accept.isPending}
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
          <Follows>
            Accepting moves the visits at once; inspectors, and clients whose promised time changes, are told by mail. Each visit can be
            moved again by hand.
          </Follows>
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

/** Visits of a day that change together with those of another day, and are shown there. */
const movedElsewhere = ({ days }: PlanVariantAnswer, of: DayAnswer): number =>
  days
    .filter((day) => day !== of)
    .flatMap(({ groups }) => groups)
    .flatMap(({ moves }) => moves)
    .filter(({ before }) => before !== null && before.day >= of.day && before.day <= (of.toDay ?? of.day)).length;

/** `elsewhere`: visits of the day that are among the groups of another. */
function Summary({ day, saves, elsewhere }: { day: DayAnswer; saves: boolean; elsewhere: number }): ReactNode {
  const there =
    elsewhere === 0
      ? ''
      : ` ${elsewhere === 1 ? 'One changes' : `${elsewhere} change`} with those of another day and ${elsewhere === 1 ? 'is' : 'are'} shown there.`;
  if (day.groups.length === 0)
    return (
      <Empty>{`${elsewhere === 0 ? 'The' : 'Of the'} ${day.visits} visits ${stay(day.visits - elsewhere, elsewhere)}.${there} ${proofText(day)}`}</Empty>
    );
  const moves = day.groups.reduce((sum, { moves: list }) => sum + list.length, 0);
  const among = moves > day.visits ? `${moves} visits of this and other days` : `${moves} of ${day.visits} visits`;
  return (
    <>
      <p>
        {among} change.{there} {saves ? saved(day) : ''} <span className={classes.soft}>{proofText(day)}</span>
      </p>
      {saves && day.groups.length > 1 ? (
        <p className={classes.soft}>
          What stands beside a group holds when it alone is accepted. They share people, so the whole is worth more or less than the sum.
        </p>
      ) : null}
    </>
  );
}

const stay = (visits: number, elsewhere: number): string =>
  elsewhere === 0 ? 'stay as they are' : `${visits} ${visits === 1 ? 'stays' : 'stay'} as ${visits === 1 ? 'it is' : 'they are'}`;

const saved = ({ savingMinutes, drivingSavedMinutes }: DayAnswer): string => {
  const driving = drivingSavedMinutes >= 0 ? `${minutesText(drivingSavedMinutes)} less` : `${minutesText(-drivingSavedMinutes)} more`;
  return savingMinutes >= 0
    ? `All in all worth ${minutesText(savingMinutes)} of one person’s time; ${driving} driving.`
    : `Costs ${minutesText(-savingMinutes)} of one person’s time more than the day as booked; ${driving} driving.`;
};
