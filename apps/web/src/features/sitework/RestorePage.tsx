// Leave it as you found it: what this pair changed, what is not back, and who was told of what cannot be put back.
import type { ReactNode } from 'react';
import { Button, TextInput } from '@mantine/core';
import { CHANGES, type Change } from '@backsight/domain/sitework/act';
import { notRestored, sayToRestore, toldOf, type ToRestore } from '@backsight/domain/sitework/restore';
import { useDraft } from '../../api/phone/drafts.ts';
import { ButtonLink } from '../../ui/links.tsx';
import { Choices } from './Choices.tsx';
import { itemName, nameOf } from './recordModel.ts';
import { SitePage, type Site } from './SitePage.tsx';
import { Ticks } from './Ticks.tsx';
import { UsualChanges, usualChanges } from './UsualChanges.tsx';
import classes from './sitework.module.css';

const WHAT = (Object.keys(CHANGES) as Change[]).map((key) => ({ key, label: CHANGES[key] }));

export const RestorePage = (): ReactNode => (
  <SitePage title="Leave it as you found it">
    {(site) => (
      <>
        <p className={classes.soft}>
          Only what we changed. What was found off stays off: valves, breakers, pilots and winterized systems are told, not turned on.
        </p>
        <NotBack site={site} />
        <Changed site={site} />
      </>
    )}
  </SitePage>
);

function NotBack({ site }: { site: Site }): ReactNode {
  const { acts, record, add } = site;
  const open = notRestored(acts);
  const told = toldOf(acts);
  const say = (one: ToRestore) => sayToRestore(one, (id) => itemName(record, id) ?? 'device');
  const back = acts.flatMap(({ act }) => (act.do === 'put_back' ? [act.of] : [])).length;
  return (
    <section>
      <h2 className={classes.day}>{open.length === 0 ? 'Everything is as it was' : `Not as it was: ${open.length}`}</h2>
      {back > 0 ? <p className={classes.soft}>Put back so far: {back}.</p> : null}
      <ul className={classes.list}>
        {open.map((one) => (
          <li key={one.ref} className={classes.restore}>
            <p>
              <strong>{say(one)}</strong>
              {one.by ? <span className={classes.soft}> changed by {nameOf(record, one.by)}</span> : null}
              {told.has(one.ref) ? <span className={classes.soft}> Client and office were told.</span> : null}
            </p>
            {one.kind === 'change' ? (
              <Button size="lg" onClick={() => void add({ do: 'put_back', of: one.ref })}>
                Put back
              </Button>
            ) : (
              <ButtonLink
                to="/records/$recordId/devices"
                params={{ recordId: record.id }}
                search={{ device: one.device ?? undefined }}
                size="lg"
                variant="default"
              >
                To its test
              </ButtonLink>
            )}
          </li>
        ))}
      </ul>
      <Told site={site} open={open.filter(({ ref }) => !told.has(ref))} say={say} />
    </section>
  );
}

type ToldOf = { of: string[]; client: string; office: string };
const NOBODY_TOLD: ToldOf = { of: [], client: '', office: '' };

/** What cannot be put back now is told to client and office on the spot; then the visit may be closed. */
function Told({ site, open, say }: { site: Site; open: readonly ToRestore[]; say: (one: ToRestore) => string }): ReactNode {
  const [{ of, ...words }, change, end] = useDraft(site.record.id, 'told', NOBODY_TOLD);
  if (open.length === 0) return null;
  const word = (key: 'client' | 'office', label: string) => (
    <TextInput label={label} size="lg" mt="sm" value={words[key]} onChange={(event) => change({ [key]: event.currentTarget.value })} />
  );
  const chosen = of.filter((ref) => open.some((one) => one.ref === ref));
  return (
    <details className={classes.more}>
      <summary>It cannot be put back now</summary>
      <Ticks
        legend="What"
        options={open.map((one) => ({ key: one.ref, label: say(one) }))}
        value={chosen}
        onChange={(some) => change({ of: some })}
      />
      {word('client', 'Who was told of client or occupant, on the spot')}
      {word('office', 'Who was told at the office')}
      <div className={classes.acts}>
        <Button
          size="xl"
          fullWidth
          disabled={chosen.length === 0 || words.client.trim() === '' || words.office.trim() === ''}
          onClick={() => void site.add({ do: 'told', of: chosen }, words).then((kept) => kept && end())}
        >
          Record that both were told
        </Button>
      </div>
    </details>
  );
}

type Altered = { thing: Change | null; where: string; was: string };
const NOTHING_CHANGED: Altered = { thing: null, where: '', was: '' };

function Changed({ site }: { site: Site }): ReactNode {
  const [{ thing, ...words }, change, end] = useDraft(site.record.id, 'something else changed', NOTHING_CHANGED);
  const put = async () => {
    if (thing === null || !(await site.add({ do: 'changed', thing }, words))) return;
    end();
  };
  const usual = usualChanges(site.record, site.acts);
  return (
    <section>
      <h2 className={classes.day}>We change something</h2>
      <UsualChanges changes={usual} onChanged={(thing, where) => void site.add({ do: 'changed', thing }, { where })} />
      <Choices legend="Something else" name="changed" two options={WHAT} value={thing} onChange={(one) => change({ thing: one })} />
      <TextInput label="Where" size="lg" mt="sm" value={words.where} onChange={(event) => change({ where: event.currentTarget.value })} />
      <TextInput
        label="How it was (not needed)"
        description="68 F, closed, on timer"
        size="lg"
        mt="sm"
        value={words.was}
        onChange={(event) => change({ was: event.currentTarget.value })}
      />
      <div className={classes.acts}>
        <Button size="xl" fullWidth disabled={thing === null || words.where.trim() === ''} onClick={() => void put()}>
          Note it
        </Button>
      </div>
    </section>
  );
}
