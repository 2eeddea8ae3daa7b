// What a pair changes at most houses, each noted with one press so that it stands on the list of what is put back.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import type { MemberRecord } from '@backsight/contract/sitework';
import { CHANGES, type Change, type KnownAct } from '@backsight/domain/sitework/act';
import { hazardPlaceOf } from '@backsight/domain/sitework/hazards';
import { notRestored } from '@backsight/domain/sitework/restore';
import classes from './sitework.module.css';

/** `system`: at whose steps it is changed. */
export type UsualChange = { thing: Change; where: string; label: string; system: string };

/** Those that this house has and that do not stand on the list already. */
export function usualChanges(record: MemberRecord, acts: readonly KnownAct[]): UsualChange[] {
  const named = (system: string, thing: Change, where: string, label = `${CHANGES[thing]}, ${where}`) => ({ system, thing, where, label });
  const ofItems = record.items.flatMap(({ kind, label }): UsualChange[] => {
    if (kind === 'heating_system') return [named('heating', 'thermostat', label)];
    if (kind === 'cooling_system') return [named('cooling', 'thermostat', label)];
    if (kind === 'garage') return [named('garage', 'gate', `${label} door`, `${label} door`)];
    return kind === 'kitchen' ? [named('appliances', 'appliance', label)] : [];
  });
  const attic = record.steps.some((step) => hazardPlaceOf(step) === 'attic') ? [named('attic', 'hatch', 'attic')] : [];
  const noted = new Set(notRestored(acts).map(({ thing, where }) => `${thing} ${where}`));
  return [...ofItems, ...attic].filter(({ thing, where }) => !noted.has(`${thing} ${where}`));
}

type Props = { changes: readonly UsualChange[]; onChanged: (thing: Change, where: string) => void };

export const UsualChanges = ({ changes, onChanged }: Props): ReactNode =>
  changes.length === 0 ? null : (
    <fieldset className={classes.set}>
      <legend>Changed now: one press, and it is on the list to put back</legend>
      <div className={classes.pairwise}>
        {changes.map(({ thing, where, label }) => (
          <Button key={thing + where} variant="default" size="lg" onClick={() => onChanged(thing, where)}>
            {label}
          </Button>
        ))}
      </div>
    </fieldset>
  );
