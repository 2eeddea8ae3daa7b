// Edits one clause: its title, its words with fields, and when it belongs into an agreement.
import type { ReactNode } from 'react';
import { NativeSelect, Stack, Textarea, TextInput } from '@mantine/core';
import { CLAUSE_CLIENTS, type Clause } from '@backsight/contract/agreementTexts';
import { RuleEditor } from '../../ui/applicability/RuleEditor.tsx';
import classes from './texts.module.css';

export type Field = { name: string; about: string };
type Props = { clause: Clause; fields: readonly Field[]; services: Readonly<Record<string, string>>; onChange: (clause: Clause) => void };

const CLIENTS = Object.entries(CLAUSE_CLIENTS).map(([value, label]) => ({ value, label }));

export function ClauseEditor({ clause, fields, services, onChange }: Props): ReactNode {
  return (
    <Stack gap="sm" className={classes.editor}>
      <TextInput
        label="Title"
        description="Clauses with a title are numbered; blank: words without a heading."
        maxLength={160}
        maw={640}
        value={clause.title}
        onChange={(event) => onChange({ ...clause, title: event.currentTarget.value })}
      />
      <Textarea
        label="Words"
        description="Markdown: a blank line begins a paragraph, - a list, ** around bold words. Fields stand in double braces."
        autosize
        minRows={4}
        maw={760}
        value={clause.body}
        onChange={(event) => onChange({ ...clause, body: event.currentTarget.value })}
      />
      <NativeSelect
        label="For"
        maw={320}
        data={CLIENTS}
        value={clause.client}
        onChange={(event) => onChange({ ...clause, client: event.currentTarget.value as Clause['client'] })}
      />
      <RuleEditor
        legend="When the clause applies"
        rule={clause.applies}
        services={services}
        onChange={(applies) => onChange({ ...clause, applies })}
      />
      <details>
        <summary style={{ cursor: 'pointer', minHeight: '2rem' }}>Fields that there are</summary>
        <ul>
          {fields.map(({ name, about }) => (
            <li key={name}>
              <code>{`{{${name}}}`}</code> {about}
            </li>
          ))}
        </ul>
      </details>
    </Stack>
  );
}
