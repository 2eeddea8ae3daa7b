// Things that steps are done for: suggested from what is known of the house, renamed, taken out or added.
import { useState, type ReactNode } from 'react';
import { Button, NativeSelect, TextInput } from '@mantine/core';
import { ITEM_KINDS, type ItemKind } from '@backsight/domain/shared/facts';
import { newId } from '../../api/ids.ts';
import classes from './sitework.module.css';

export type NamedItem = { id: string; kind: ItemKind; label: string };
const KINDS = (Object.keys(ITEM_KINDS) as ItemKind[]).map((value) => ({ value, label: ITEM_KINDS[value] }));

export function StartItems({ items, onChange }: { items: NamedItem[]; onChange: (items: NamedItem[]) => void }): ReactNode {
  const [kind, setKind] = useState<ItemKind>('bathroom');
  const rename = (id: string, label: string) => onChange(items.map((item) => (item.id === id ? { ...item, label } : item)));
  return (
    <details className={classes.more}>
      <summary>What is here, with steps of its own: {items.length}</summary>
      <p className={classes.soft}>
        From what was said at booking. Name them so that both of you know which is which; more can be added on site.
      </p>
      {items.map((item) => (
        <div key={item.id} className={classes.row}>
          <TextInput
            label={ITEM_KINDS[item.kind]}
            size="lg"
            maxLength={60}
            value={item.label}
            onChange={(event) => rename(item.id, event.currentTarget.value)}
          />
          <Button variant="default" size="lg" mt="xs" onClick={() => onChange(items.filter(({ id }) => id !== item.id))}>
            Not here
          </Button>
        </div>
      ))}
      <NativeSelect
        label="Add a thing"
        size="lg"
        data={KINDS}
        value={kind}
        onChange={(event) => setKind(event.currentTarget.value as ItemKind)}
      />
      <Button
        variant="default"
        size="lg"
        mt="xs"
        onClick={() =>
          onChange([...items, { id: newId(), kind, label: `${ITEM_KINDS[kind]} ${items.filter((i) => i.kind === kind).length + 1}` }])
        }
      >
        Add
      </Button>
    </details>
  );
}
