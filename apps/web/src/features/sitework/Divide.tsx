// Who of the pair takes which system: by system or balanced by planned minutes, and changed by hand.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { divide, minutesBySystem, minutesOf, type Part } from '@backsight/domain/sitework/divide';
import { Choices } from './Choices.tsx';
import { nameOf } from './recordModel.ts';
import type { Site } from './SitePage.tsx';
import classes from './sitework.module.css';

type By = 'system' | 'minutes';

export function Divide({ site: { record, add }, done }: { site: Site; done: () => void }): ReactNode {
  const pair = record.visit.pair.map(({ personId }) => personId);
  const [by, setBy] = useState<By>('minutes');
  const [parts, setParts] = useState<Part[]>(() => divide(record.steps, pair, 'minutes'));
  const planned = minutesBySystem(record.steps);
  const sums = minutesOf(parts, record.steps);
  const choose = (how: By) => {
    setBy(how);
    setParts(divide(record.steps, pair, how));
  };
  const title = (system: string): string => record.steps.find((step) => step.system === system)?.procedureTitle ?? system;
  return (
    <>
      <Choices
        legend="Divided"
        name="divided"
        two
        options={[
          { key: 'minutes', label: 'by balance of minutes' },
          { key: 'system', label: 'by system' },
        ]}
        value={by}
        onChange={choose}
      />
      <p className={classes.soft}>
        Of the pair's planned minutes: {pair.map((person) => `${nameOf(record, person)} ${Math.round(sums.get(person) ?? 0)}`).join(', ')}.
        Partner checks are done by both and not counted.
      </p>
      {parts.map(({ system, person }) => (
        <Choices
          key={system}
          legend={`${title(system)}, ${Math.round(planned.get(system) ?? 0)} min`}
          name={`part-${system}`}
          two
          options={pair.map((one) => ({ key: one, label: nameOf(record, one) }))}
          value={person}
          onChange={(one) => setParts(parts.map((part) => (part.system === system ? { system, person: one } : part)))}
        />
      ))}
      <div className={classes.acts}>
        <Button size="xl" fullWidth onClick={() => void add({ do: 'divide', by, parts }).then((kept) => kept && done())}>
          Record it
        </Button>
      </div>
    </>
  );
}
