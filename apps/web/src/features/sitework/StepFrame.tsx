// Around a page of steps: the look for danger before it, what the day says about running equipment, and the way to the test of a ground-fault device.
import type { ReactNode } from 'react';
import type { MemberRecord, SiteStep } from '@backsight/contract/sitework';
import type { ActWords, KnownAct, SiteAct } from '@backsight/domain/sitework/act';
import { conditionsOf, coolingAdvice, heatPumpAdvice } from '@backsight/domain/sitework/conditions';
import { divisionOf } from '@backsight/domain/sitework/divide';
import { lookFor } from '@backsight/domain/sitework/hazards';
import { ButtonLink } from '../../ui/links.tsx';
import { HazardGate } from './HazardGate.tsx';
import { nameOf } from './recordModel.ts';
import { UsualChanges, usualChanges } from './UsualChanges.tsx';
import classes from './sitework.module.css';

type Props = {
  record: MemberRecord;
  acts: readonly KnownAct[];
  steps: readonly SiteStep[];
  onAct: (act: SiteAct, how?: { by?: string; words?: ActWords }) => void;
  children: ReactNode;
};

export function StepFrame({ record, acts, steps, onAct, children }: Props): ReactNode {
  const first = steps[0]!;
  const looked = steps.find((step) => lookFor(step) !== null) ?? first;
  const taker = divisionOf(acts).get(first.system);
  return (
    <>
      {taker && taker !== record.me && !first.partnerCheck ? (
        <p className={classes.soft}>{nameOf(record, taker)} has this system.</p>
      ) : null}
      <DayAdvice acts={acts} step={first} />
      {first.per === 'ground_fault_device' && record.state === 'open' ? (
        <div className={classes.acts}>
          <ButtonLink
            to="/records/$recordId/devices"
            params={{ recordId: record.id }}
            search={{ device: first.itemId ?? undefined }}
            size="xl"
            fullWidth
          >
            Test it in its order: note, trip, reset, confirm
          </ButtonLink>
        </div>
      ) : null}
      <HazardGate record={record} acts={acts} step={looked} onAct={onAct}>
        {children}
        {record.state === 'open' ? (
          <UsualChanges
            changes={usualChanges(record, acts).filter(({ system }) => system === first.system)}
            onChanged={(thing, where) => onAct({ do: 'changed', thing }, { words: { where } })}
          />
        ) : null}
      </HazardGate>
    </>
  );
}

/** Only where it says not to run it, or to take care. */
function DayAdvice({ acts, step }: { acts: readonly KnownAct[]; step: SiteStep }): ReactNode {
  const day = conditionsOf(acts);
  if (!day || (step.system !== 'cooling' && step.system !== 'heating')) return null;
  const advice = step.system === 'cooling' ? coolingAdvice(day.outdoorF) : heatPumpAdvice(day.outdoorF);
  return advice.run === 'yes' ? null : <p className={classes.notice}>{advice.words}</p>;
}
