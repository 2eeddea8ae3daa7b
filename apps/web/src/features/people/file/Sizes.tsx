// The sizes in which a person wears kit: without one, nobody is sent where that kit is needed.
import { useState, type ReactNode } from 'react';
import { Button, NativeSelect, SimpleGrid } from '@mantine/core';
import type { PersonFile } from '@backsight/contract/people/file';
import { SIZES, type Size } from '@backsight/contract/people/kit';
import { setSizes } from '../../../api/personFile.ts';
import { Details } from '../../../ui/Details.tsx';
import { Form } from '../../../ui/Form.tsx';
import { Section } from '../../../ui/Section.tsx';
import { useSend } from '../../../ui/useSend.ts';
import { Leave } from './AddPart.tsx';

type Sizes = PersonFile['sizes'];

export function PersonSizes({ personId, rows, mayChange }: { personId: string; rows: Sizes; mayChange: boolean }): ReactNode {
  const [changing, setChanging] = useState(false);
  if (rows.length === 0) return null;
  return (
    <Section title="Sizes">
      {changing ? (
        <Change personId={personId} rows={rows} done={() => setChanging(false)} />
      ) : (
        <>
          <Details rows={rows.map(({ name, size }) => [name, size ?? 'not on file: not sent where it is needed'] as const)} />
          {mayChange ? (
            <Button variant="default" size="compact-md" mt="xs" onClick={() => setChanging(true)}>
              Change sizes
            </Button>
          ) : null}
        </>
      )}
    </Section>
  );
}

function Change({ personId, rows, done }: { personId: string; rows: Sizes; done: () => void }): ReactNode {
  const [sizes, choose] = useState(() => Object.fromEntries(rows.map(({ kind, size }) => [kind, size ?? ''])));
  const save = useSend(setSizes, {
    refresh: ['people', personId, 'file'],
    said: 'The sizes are on file.',
    then: done,
    undo: () => () => setSizes({ personId, sizes: rows.map(({ kind, size }) => ({ kind, size: size as Size | null })) }),
  });
  const send = () => save.mutate({ personId, sizes: rows.map(({ kind }) => ({ kind, size: (sizes[kind] || null) as Size | null })) });
  return (
    <Form error={save.error} labels={{}} submit="Save sizes" busy={save.isPending} onSubmit={send} besides={<Leave done={done} />}>
      <SimpleGrid cols={{ base: 1, xs: 2 }}>
        {rows.map(({ kind, name }, at) => (
          <NativeSelect
            key={kind}
            label={name}
            value={sizes[kind]}
            autoFocus={at === 0}
            onChange={(event) => {
              const size = event.currentTarget.value;
              choose((before) => ({ ...before, [kind]: size }));
            }}
            data={[{ value: '', label: 'not known' }, ...SIZES.map((size) => ({ value: size, label: size }))]}
          />
        ))}
      </SimpleGrid>
    </Form>
  );
}
