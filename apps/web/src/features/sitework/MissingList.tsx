// What still misses before the seal, system by system: how much, the way to each step, and what can be done for a group at once.
import { useState, type ReactNode } from 'react';
import { Button, TextInput } from '@mantine/core';
import type { MemberRecord, SiteStep } from '@backsight/contract/sitework';
import { groupMissing, type MissingGroup } from '@backsight/domain/sitework/missingGroups';
import { pagesOf } from '@backsight/domain/sitework/pages';
import { placeOf, REASONS, type CouldNotReason } from '@backsight/domain/sitework/value';
import { TextLink } from '../../ui/links.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { actsHere } from './acts.ts';
import { Choices } from './Choices.tsx';
import { BLANK, entryOf, type Draft } from './drafts.ts';
import { itemName, nameOf } from './recordModel.ts';
import { useRecord } from './useRecord.ts';
import classes from './sitework.module.css';

/** Up to so many lines all groups stand open. */
const FEW = 12;

type Props = { record: MemberRecord; missing: MemberRecord['missing'] };

export function MissingList({ record, missing }: Props): ReactNode {
  const { addEntries, waiting } = useRecord(record.id);
  const [failed, setFailed] = useState<unknown>(null);
  if (missing.length === 0)
    return (
      <div className={classes.notice}>
        <p>Every step has its entry.</p>
      </div>
    );
  const entries = missing.flatMap(({ kind, stepKey, itemId, person }) =>
    kind === 'entry' && stepKey ? [{ stepKey, itemId, person }] : [],
  );
  const groups = groupMissing(entries, record.steps, { me: record.me, acts: actsHere(record, waiting) });
  const put = (steps: readonly SiteStep[], part: Partial<Draft>) =>
    void addEntries(steps.map((step) => entryOf(step, { ...BLANK, ...part }, record.me))).then(() => setFailed(null), setFailed);
  return (
    <section>
      <h2 className={classes.day}>Still missing: {missing.length}</h2>
      <ProblemNote of={failed} />
      {missing.flatMap(({ kind, person }) =>
        kind === 'member' ? [<p key={`member${person}`}>Nothing of {nameOf(record, person ?? '')} has arrived yet.</p>] : [],
      )}
      {groups.map((group) => (
        <Group key={group.title} record={record} group={group} open={entries.length <= FEW} onPut={put} />
      ))}
    </section>
  );
}

type GroupProps = {
  record: MemberRecord;
  group: MissingGroup<SiteStep>;
  open: boolean;
  onPut: (steps: readonly SiteStep[], part: Partial<Draft>) => void;
};

function Group({ record, group, open, onPut }: GroupProps): ReactNode {
  const { title, missing, mine, plain } = group;
  const pages = pagesOf(record.steps);
  const pageAt = (step: SiteStep): number =>
    Math.max(
      0,
      pages.findIndex((page) => page.steps.includes(step)),
    );
  return (
    <details className={classes.more} open={open}>
      <summary>
        {title}: {missing.length}
        {mine.length < missing.length ? ` (${mine.length} for you)` : ''}
      </summary>
      <ul className={classes.list}>
        {missing.map(({ step, person }) => {
          const item = itemName(record, step.itemId);
          const who = person === null ? '' : person === record.me ? ', yours' : `, ${nameOf(record, person)}'s`;
          return (
            <li key={placeOf(step) + String(person)}>
              <p>
                <TextLink to="/records/$recordId" params={{ recordId: record.id }} search={{ page: pageAt(step) }}>
                  {step.title}
                  {item ? ` (${item})` : ''}
                </TextLink>
                {who}
              </p>
            </li>
          );
        })}
      </ul>
      {record.state === 'open' && plain.length > 0 ? <ConfirmPlain steps={plain} onConfirm={() => onPut(plain, {})} /> : null}
      {record.state === 'open' && mine.length > 1 ? <NoneInspected title={title} steps={mine} onPut={onPut} /> : null}
    </details>
  );
}

/** Done already and only not confirmed: what was to be done stands there once more, then one press. */
const ConfirmPlain = ({ steps, onConfirm }: { steps: readonly SiteStep[]; onConfirm: () => void }): ReactNode => (
  <details className={classes.more}>
    <summary>You have done {steps.length === 1 ? 'the one that asks' : `the ${steps.length} that ask`} for no answer</summary>
    <ul className={classes.plain}>
      {steps.map((step) => (
        <li key={placeOf(step)}>
          <strong>{step.title}.</strong> {step.instruction}
        </li>
      ))}
    </ul>
    <div className={classes.acts}>
      <Button size="xl" fullWidth onClick={onConfirm}>
        Confirm {steps.length === 1 ? 'it' : `all of these (${steps.length})`}
      </Button>
    </div>
  </details>
);

const WHY = (Object.keys(REASONS) as CouldNotReason[]).map((key) => ({ key, label: REASONS[key] }));

/** One reason for all that is left of a system; it goes into the report for each of them. */
function NoneInspected({ title, steps, onPut }: Pick<GroupProps, 'onPut'> & { title: string; steps: readonly SiteStep[] }): ReactNode {
  const [reason, setReason] = useState<CouldNotReason | null>(null);
  const [note, setNote] = useState('');
  const ready = reason !== null && (reason !== 'other' || note.trim() !== '');
  return (
    <details className={classes.more}>
      <summary>None of these {steps.length} could be inspected</summary>
      <Choices legend="Why, for each of them" name={`none-${title}`} options={WHY} value={reason} onChange={setReason} />
      <TextInput
        label={reason === 'other' ? 'What was in the way' : 'Note (not needed)'}
        size="lg"
        mt="sm"
        value={note}
        onChange={(event) => setNote(event.currentTarget.value)}
      />
      <div className={classes.acts}>
        <Button size="xl" fullWidth disabled={!ready} onClick={() => onPut(steps, { outcome: 'could_not', reason, note })}>
          Record {steps.length} as could not be inspected
        </Button>
      </div>
    </details>
  );
}
