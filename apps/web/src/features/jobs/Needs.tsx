// What is still to get, soonest first: one action for each, and who said what.
import { useState, type ReactNode } from 'react';
import { Button, Group, NativeSelect, TextInput } from '@mantine/core';
import { NEED_KINDS, NEED_STATES, statesByHand, type JobPage as Job, type NeedState } from '@backsight/contract/jobs';
import { settleNeed } from '../../api/jobs.ts';
import { TextLink } from '../../ui/links.tsx';
import { useDraft, whileSending } from '../../ui/draft.ts';
import { Kept } from '../../ui/Kept.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { useOpener } from '../../ui/useOpener.ts';
import { When } from '../../ui/When.tsx';
import { AccessForm } from './AccessForm.tsx';
import { useChange } from './useChange.ts';
import classes from './jobs.module.css';

type Need = Job['needs'][number];
const isOpen = ({ state }: Need): boolean => state !== 'settled' && state !== 'not_needed';

export function Needs({ job, mayWork }: { job: Job; mayWork: boolean }): ReactNode {
  const open = job.needs.filter(isOpen);
  const closed = job.needs.filter((need) => !isOpen(need));
  return (
    <section aria-label="Still to get">
      <h2>Still to get</h2>
      {open.length === 0 ? (
        <p>Nothing is missing.</p>
      ) : (
        <ul className={classes.rows}>
          {open.map((need) => (
            <OneNeed key={need.kind} need={need} job={job} mayWork={mayWork} />
          ))}
        </ul>
      )}
      {closed.length > 0 ? (
        <details>
          <summary>{closed.length} settled</summary>
          <ul className={classes.rows}>
            {closed.map((need) => (
              <OneNeed key={need.kind} need={need} job={job} mayWork={mayWork} />
            ))}
          </ul>
        </details>
      ) : null}
    </section>
  );
}

function OneNeed({ need, job, mayWork }: { need: Need; job: Job; mayWork: boolean }): ReactNode {
  const [editing, setEditing] = useState(false);
  const opener = useOpener(editing);
  const { who, how, why } = need.details as Record<string, string | undefined>;
  const said = [who, how, need.settledBy && `noted by ${need.settledBy}`].filter(Boolean);
  const byHand = statesByHand(need.kind).length > 0;
  return (
    <li>
      <div className={classes.words}>
        <strong>{NEED_KINDS[need.kind]}</strong>: {NEED_STATES[need.state]}
        {isOpen(need) ? (
          <>
            , by <When at={need.dueAt} />
          </>
        ) : null}
        <div className={classes.soft}>
          {(isOpen(need) || said.length === 0 ? [why, ...said] : said).filter(Boolean).join(' · ')}
          {need.settledAt ? (
            <>
              {' '}
              · <When at={need.settledAt} />
            </>
          ) : null}
        </div>
      </div>
      {need.kind === 'signature' && isOpen(need) && job.agreement ? (
        <TextLink to="/jobs/$jobId/agreement" params={{ jobId: job.id }}>
          Get it signed
        </TextLink>
      ) : null}
      {mayWork && byHand && !editing ? (
        <Button
          ref={opener}
          size="compact-md"
          variant="default"
          onClick={() => setEditing(true)}
          aria-label={`Note: ${NEED_KINDS[need.kind]}`}
        >
          Note
        </Button>
      ) : null}
      {editing && need.kind === 'access' ? <AccessForm need={need} job={job} onDone={() => setEditing(false)} /> : null}
      {editing && need.kind !== 'access' ? <NeedForm need={need} job={job} onDone={() => setEditing(false)} /> : null}
    </li>
  );
}

function NeedForm({ need, job, onDone }: { need: Need; job: Job; onDone: () => void }): ReactNode {
  const states = statesByHand(need.kind);
  const first: NeedState = states.includes('settled') ? 'settled' : 'asked';
  const { values, setValues, draft } = useDraft<{ state: NeedState; who: string; how: string }>(
    { state: first, who: '', how: '' },
    `need ${need.kind}`,
  );
  const set = (part: Partial<typeof values>) => setValues((before) => ({ ...before, ...part }));
  const { state, who, how } = values;
  const change = useChange(settleNeed, `Noted: ${NEED_KINDS[need.kind]}.`, onDone);
  return (
    <form
      className={classes.inline}
      onSubmit={(event) => {
        event.preventDefault();
        whileSending(draft, () => change.mutate({ id: job.id, version: job.version, kind: need.kind, state, who, how }));
      }}
    >
      <Kept draft={draft} />
      <ProblemNote of={change.error} />
      <Group align="flex-end" gap="sm">
        <NativeSelect
          label="Is now"
          value={state}
          onChange={(event) => set({ state: event.currentTarget.value as NeedState })}
          data={states.map((value) => ({ value, label: NEED_STATES[value] }))}
          autoFocus
        />
        <TextInput label="Who said so" value={who} onChange={(event) => set({ who: event.currentTarget.value })} maxLength={120} />
        <TextInput label="What was said" value={how} onChange={(event) => set({ how: event.currentTarget.value })} maxLength={500} />
        <Button type="submit" loading={change.isPending}>
          Save
        </Button>
        <Button variant="default" onClick={onDone}>
          Leave it
        </Button>
      </Group>
    </form>
  );
}
