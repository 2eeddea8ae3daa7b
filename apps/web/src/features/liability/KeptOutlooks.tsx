// Outlooks that the owner chose to keep: opening one shows it anew from its seed and instant; removing one removes it.
import { useState, type ReactNode } from 'react';
import { Button, Group, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { outlookTables, type KeptOutlook, type Outlook } from '@backsight/contract/liability/outlook';
import { newId } from '../../api/ids.ts';
import { keepOutlook, keptOutlooksQuery, removeOutlook } from '../../api/outlook.ts';
import { tableAddress } from '../../api/tables.ts';
import { ConfirmDialog } from '../../ui/ConfirmDialog.tsx';
import { Form } from '../../ui/Form.tsx';
import { TextLink } from '../../ui/links.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { When } from '../../ui/When.tsx';
import { OutlookFigures } from './OutlookFigures.tsx';
import { searchOf } from './outlookSearch.ts';
import { TableFiles } from './TableFiles.tsx';

const REFRESH = ['liability', 'outlooks'];
const LABELS = { name: 'Name' };

export function KeepOutlook({ outlook: { scenario, seed, asOf } }: { outlook: Outlook }): ReactNode {
  const [id] = useState(newId);
  const keep = useSend(keepOutlook, { refresh: REFRESH, said: 'Kept.' });
  const { text, values } = useFields({ name: '' }, LABELS, keep.error, 'keep');
  return (
    <Section title="Keep it">
      <p>
        Nothing is kept unless you say so: an estimate on file may be asked for later by others. It keeps name, inputs, seed, result and
        date.
      </p>
      <Form
        error={keep.error}
        labels={LABELS}
        scope="keep"
        submit="Keep this estimate"
        busy={keep.isPending}
        onSubmit={() => keep.mutate({ id, name: values.name, ...scenario, seed, asOf })}
      >
        <TextInput {...text('name')} maw="30rem" />
      </Form>
    </Section>
  );
}

export function KeptOutlooks(): ReactNode {
  const { data, error } = useQuery(keptOutlooksQuery);
  const [removing, setRemoving] = useState<KeptOutlook | null>(null);
  const remove = useSend(removeOutlook, { refresh: REFRESH, said: 'Removed.', then: () => setRemoving(null) });
  if (!error && (!data || data.items.length === 0)) return null;
  return (
    <Section title="Kept estimates" actions={<TableFiles csv={tableAddress(outlookTables.kept, 'kept')} of="kept estimates" />}>
      <ProblemNote of={error} />
      {data?.items.map((kept) => (
        <details key={kept.id}>
          <summary>
            {kept.name}, planning estimate of <When at={kept.madeAt} /> by {kept.madeBy}
          </summary>
          <OutlookFigures figures={kept.result.figures} changed />
          {[...kept.result.because, ...kept.result.cautions].map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
          <ul>
            {kept.result.assumptions.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
          <Group my="sm">
            <TextLink to="/liabilities/outlook" search={searchOf(kept.scenario, kept.seed, kept.asOf)}>
              Open with its inputs (seed {String(kept.seed)})
            </TextLink>
            <Button size="compact-md" variant="default" onClick={() => setRemoving(kept)} aria-label={`Remove ${kept.name}`}>
              Remove
            </Button>
          </Group>
        </details>
      ))}
      <ConfirmDialog
        opened={removing !== null}
        title="Remove a kept estimate"
        act="Remove it"
        busy={remove.isPending}
        error={remove.error}
        onConfirm={() => removing && remove.mutate(removing.id)}
        onClose={() => setRemoving(null)}
      >
        <p>{removing?.name} is removed for good. That there was one stays in the audit trail.</p>
      </ConfirmDialog>
    </Section>
  );
}
