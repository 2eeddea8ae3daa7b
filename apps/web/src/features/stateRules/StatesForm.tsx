// The states whose rules the firm's agreement texts are held against.
import { useState, type ReactNode } from 'react';
import { Button, Checkbox, Group } from '@mantine/core';
import type { RulePackShown } from '@backsight/contract/rulePacks';
import { chooseStates } from '../../api/agreementTexts.ts';
import { useMe } from '../../api/people.ts';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { useSend } from '../../ui/useSend.ts';

export function StatesForm({ states, packs }: { states: readonly string[]; packs: readonly RulePackShown[] }): ReactNode {
  const owner = useMe().roles.includes('owner');
  const [chosen, setChosen] = useState([...states]);
  const save = useSend(chooseStates, { refresh: ['rule-packs'], said: 'The states were saved.' });
  return (
    <>
      <ProblemNote of={save.error} />
      <Checkbox.Group
        label="States in which the firm works"
        description="Agreement texts are held against the rules of each. A job elsewhere brings a warning when its agreement is issued."
        value={chosen}
        onChange={setChosen}
        readOnly={!owner}
      >
        <Group gap="md" mt="xs">
          {packs.map(({ jurisdiction, name }) => (
            <Checkbox key={jurisdiction} value={jurisdiction} label={name || jurisdiction} disabled={!owner} />
          ))}
        </Group>
      </Checkbox.Group>
      {owner ? (
        <Button mt="sm" variant="default" loading={save.isPending} onClick={() => save.mutate(chosen)}>
          Save the states
        </Button>
      ) : null}
    </>
  );
}
