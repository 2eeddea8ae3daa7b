// A draft as it is edited: rules in their order, one open at a time, saved as a whole.
import { useState, type ReactNode } from 'react';
import { Button, Group, NativeSelect, Stack, TextInput } from '@mantine/core';
import { FEE_KINDS, type FeeRule, type SchedulePage } from '@backsight/contract/fees/schedules';
import { changeSchedule } from '../../api/feeSetUp.ts';
import { asProblem } from '../../api/problemError.ts';
import { useDraft, whileSending } from '../../ui/draft.ts';
import { Kept } from '../../ui/Kept.tsx';
import { RuleEditor } from '../../ui/applicability/RuleEditor.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useSend } from '../../ui/useSend.ts';
import { freshRule, problemsOf, type Kind } from './drafting.ts';
import { RuleAmounts } from './RuleAmounts.tsx';

/** `typed`: name and rules as they are typed, kept until they are saved. */
type Props = { schedule: SchedulePage; typed: ReturnType<typeof useDraft<{ name: string; rules: FeeRule[] }>> };

export function DraftEditor({ schedule, typed: { values, setValues, draft } }: Props): ReactNode {
  const { name, rules } = values;
  const onRules = (next: FeeRule[]) => setValues((before) => ({ ...before, rules: next }));
  const [open, setOpen] = useState<string | null>(null);
  const [kind, setKind] = useState<Kind>('surcharge');
  const save = useSend(changeSchedule, { refresh: ['fee-schedules'], said: 'The draft is saved.' });
  const problems = asProblem(save.error)?.fields ?? [];
  const add = () => {
    const rule = freshRule(kind, Object.keys(schedule.services)[0] ?? '');
    onRules([...rules, rule]);
    setOpen(rule.key);
  };
  return (
    <Section title="Rules of the draft">
      <ProblemNote of={save.error} />
      <Kept draft={draft} />
      <TextInput
        label="Name of the schedule"
        maw={360}
        mb="sm"
        value={name}
        maxLength={80}
        onChange={(event) => {
          const typed = event.currentTarget.value;
          setValues((before) => ({ ...before, name: typed }));
        }}
      />
      <Stack gap="sm">
        {rules.map((rule, at) => (
          <OneRule
            key={rule.key}
            rules={rules}
            at={at}
            schedule={schedule}
            open={open === rule.key}
            onOpen={(is) => setOpen(is ? rule.key : null)}
            problems={problemsOf(problems, at)}
            onRules={onRules}
          />
        ))}
      </Stack>
      <Group align="flex-end" mt="md">
        <NativeSelect
          label="Kind of rule"
          value={kind}
          onChange={(event) => setKind(event.currentTarget.value as Kind)}
          data={Object.entries(FEE_KINDS).map(([value, label]) => ({ value, label }))}
        />
        <Button variant="default" onClick={add}>
          Add a rule
        </Button>
        <Button
          loading={save.isPending}
          onClick={() => whileSending(draft, () => save.mutate({ id: schedule.id, version: schedule.version, name, rules }))}
        >
          Save the draft
        </Button>
      </Group>
    </Section>
  );
}

type OneProps = {
  rules: FeeRule[];
  at: number;
  schedule: SchedulePage;
  open: boolean;
  onOpen: (open: boolean) => void;
  problems: { field: string; message: string }[];
  onRules: (rules: FeeRule[]) => void;
};

function OneRule({ rules, at, schedule, open, onOpen, problems, onRules }: OneProps): ReactNode {
  const rule = rules[at]!;
  const set = (next: FeeRule) => onRules(rules.map((one, place) => (place === at ? next : one)));
  const up = () => onRules(rules.map((one, place) => (place === at - 1 ? rule : place === at ? rules[at - 1]! : one)));
  const title = rule.label || `New ${FEE_KINDS[rule.kind]}`;
  const words = schedule.words.find(({ key }) => key === rule.key)?.text;
  return (
    <section aria-label={title} style={{ borderTop: '1px solid var(--bs-line)', paddingTop: 'var(--bs-space-4)' }}>
      <Group justify="space-between" align="flex-start" gap="xs">
        <div style={{ flex: '1 1 18rem' }}>
          <strong>{title}</strong>
          <div style={{ color: 'var(--bs-ink-soft)' }}>{words ?? FEE_KINDS[rule.kind]}</div>
        </div>
        <Group gap="xs" wrap="nowrap">
          <Button
            size="compact-sm"
            variant="default"
            aria-expanded={open}
            aria-label={`${open ? 'Close' : 'Edit'} ${title}`}
            onClick={() => onOpen(!open)}
          >
            {open ? 'Close' : 'Edit'}
          </Button>
          <Button size="compact-sm" variant="default" disabled={at === 0} aria-label={`Move ${title} up`} onClick={up}>
            Up
          </Button>
          <Button
            size="compact-sm"
            variant="default"
            aria-label={`Remove ${title}`}
            onClick={() => onRules(rules.filter((_, place) => place !== at))}
          >
            Remove
          </Button>
        </Group>
      </Group>
      {problems.length > 0 ? (
        <ul role="alert">
          {problems.map(({ field, message }) => (
            <li key={field + message}>{field ? `${field}: ${message}` : message}</li>
          ))}
        </ul>
      ) : null}
      {open ? (
        <Stack gap="sm" mt="xs" ps="md">
          <TextInput
            label="What the client reads"
            maw={360}
            value={rule.label}
            maxLength={120}
            onChange={(event) => set({ ...rule, label: event.currentTarget.value })}
          />
          <RuleAmounts rule={rule} services={schedule.services} onChange={set} />
          <RuleEditor
            legend="Applies when"
            rule={rule.applies}
            services={schedule.services}
            onChange={(applies) => set({ ...rule, applies })}
          />
        </Stack>
      ) : null}
    </section>
  );
}
