// At the door: who is there, the conditions of the day, what must not lose power, and who takes what.
import { useState, type ReactNode } from 'react';
import { Button, TextInput } from '@mantine/core';
import { useNavigate } from '@tanstack/react-router';
import {
  actKey,
  ANIMALS,
  HOUSE,
  IN_VIEW,
  LOADS,
  RAIN,
  RECORDING,
  SNOW,
  UTILITY,
  WHO_IS_THERE,
  type SiteAct,
} from '@backsight/domain/sitework/act';
import { coolingAdvice, conditionsOf, heatPumpAdvice } from '@backsight/domain/sitework/conditions';
import { sayAct } from '@backsight/domain/sitework/sayAct';
import { placeOf } from '@backsight/domain/sitework/value';
import { useMe } from '../../api/people.ts';
import { useDraft } from '../../api/phone/drafts.ts';
import { Choices } from './Choices.tsx';
import { addAtDoor } from './doorSteps.ts';
import { Divide } from './Divide.tsx';
import { namingOf } from './naming.ts';
import { SitePage, type Site } from './SitePage.tsx';
import { Ticks } from './Ticks.tsx';
import classes from './sitework.module.css';

const optionsOf = <K extends string>(list: Record<K, string>) => (Object.keys(list) as K[]).map((key) => ({ key, label: list[key] }));

export function DoorPage(): ReactNode {
  const navigate = useNavigate();
  const toSteps = (recordId: string) => void navigate({ to: '/records/$recordId', params: { recordId } });
  return (
    <SitePage title="At the door">
      {(site) => (
        <>
          <Part site={site} kind="arrival" title="Who is there">
            {(done) => <Arrival site={site} done={done} />}
          </Part>
          <Part site={site} kind="conditions" title="Conditions of the day">
            {(done) => <Conditions site={site} done={done} />}
          </Part>
          <Part site={site} kind="loads" title="What must not lose power">
            {(done) => <Loads site={site} done={done} />}
          </Part>
          <Part site={site} kind="divide" title="Who takes what">
            {(done) => <Divide site={site} done={() => (done(), toSteps(site.record.id))} />}
          </Part>
        </>
      )}
    </SitePage>
  );
}

/** In their order; the first that is not on record stands open. */
const PARTS: readonly SiteAct['do'][] = ['arrival', 'conditions', 'loads', 'divide'];

type PartProps = { site: Site; kind: SiteAct['do']; title: string; children: (done: () => void) => ReactNode };

/** What is on record stands in one line; it is opened again to change it. */
function Part({ site, kind, title, children }: PartProps): ReactNode {
  const me = useMe();
  const last = site.acts.findLast(({ act }) => act.do === kind);
  const [open, setOpen] = useState<boolean | null>(null);
  const isNext = PARTS.find((one) => !site.acts.some(({ act }) => act.do === one)) === kind;
  if (open === null && isNext) setOpen(true); // and stays, even when the partner's answer arrives while it is typed
  return (
    <section>
      <h2 className={classes.day}>{title}</h2>
      {last ? (
        <div className={classes.notice}>
          <p>{sayAct(last, namingOf(site.record, site.acts, me.zone))}</p>
        </div>
      ) : null}
      {last && kind === 'conditions' ? <Advice site={site} /> : null}
      {open ? (
        children(() => setOpen(false))
      ) : (
        <Button variant={last ? 'default' : 'filled'} size="lg" mt="xs" onClick={() => setOpen(true)}>
          {last ? 'Change it' : 'Record it'}
        </Button>
      )}
    </section>
  );
}

function Advice({ site }: { site: Site }): ReactNode {
  const day = conditionsOf(site.acts);
  if (!day) return null;
  const lines = [coolingAdvice(day.outdoorF), heatPumpAdvice(day.outdoorF)].filter(({ run }) => run !== 'yes');
  return lines.map(({ words }) => (
    <p key={words} className={classes.soft}>
      {words}
    </p>
  ));
}

type Form = { site: Site; done: () => void };
const Record = ({ ready, onPress }: { ready: boolean; onPress: () => void }): ReactNode => (
  <div className={classes.acts}>
    <Button size="xl" fullWidth disabled={!ready} onClick={onPress}>
      Record it
    </Button>
  </div>
);

const placeFor = (kind: SiteAct['do']): string => placeOf({ stepKey: actKey(kind), itemId: null });

type Met = { there: keyof typeof WHO_IS_THERE | null; animals: keyof typeof ANIMALS | null; recording: keyof typeof RECORDING | null } & {
  inView: (keyof typeof IN_VIEW)[];
};
const NOBODY_MET: Met = { there: null, animals: null, recording: null, inView: [] };

function Arrival({ site, done }: Form): ReactNode {
  const [{ there, animals, recording, inView }, change] = useDraft(site.record.id, placeFor('arrival'), NOBODY_MET);
  const ready = there !== null && animals !== null && recording !== null;
  return (
    <>
      <p className={classes.notice}>Only a minor at home: stay outside and call the office.</p>
      <Choices
        legend="Who lets you in"
        name="there"
        options={optionsOf(WHO_IS_THERE)}
        value={there}
        onChange={(one) => change({ there: one })}
      />
      <Choices
        legend="Animals"
        name="animals"
        two
        options={optionsOf(ANIMALS)}
        value={animals}
        onChange={(one) => change({ animals: one })}
      />
      <Choices
        legend="Cameras or microphones"
        name="recording"
        options={optionsOf(RECORDING)}
        value={recording}
        onChange={(one) => change({ recording: one })}
      />
      <Ticks
        legend="In view: touch nothing, keep it out of every photo"
        options={optionsOf(IN_VIEW)}
        value={inView}
        onChange={(some) => change({ inView: some })}
      />
      <Record
        ready={ready}
        onPress={() => {
          if (ready) void addAtDoor(site, { do: 'arrival', there, animals, recording, inView }).then((kept) => kept && done());
        }}
      />
    </>
  );
}

type Day = {
  outdoor: string;
  rain48: keyof typeof RAIN;
  snow: keyof typeof SNOW;
  water: keyof typeof UTILITY;
  gas: keyof typeof UTILITY;
} & {
  electricity: keyof typeof UTILITY;
  house: keyof typeof HOUSE;
};
/** Everything but the temperature begins with its commonest answer, so that a plain day takes two inputs. */
const PLAIN_DAY: Day = { outdoor: '', rain48: 'none', snow: 'none', water: 'on', gas: 'on', electricity: 'on', house: 'occupied' };

function Conditions({ site, done }: Form): ReactNode {
  const [{ outdoor, ...chosen }, change] = useDraft(site.record.id, placeFor('conditions'), PLAIN_DAY);
  const outdoorF = Number(outdoor.replace(',', '.'));
  const ready = outdoor.trim() !== '' && Number.isFinite(outdoorF) && outdoorF >= -80 && outdoorF <= 140;
  const choose = <K extends keyof typeof chosen>(key: K, legend: string, list: Record<Day[K], string>) => (
    <Choices
      legend={legend}
      name={key}
      two
      options={optionsOf(list)}
      value={chosen[key]}
      onChange={(one) => change({ [key]: one } as Partial<Day>)}
    />
  );
  return (
    <>
      <TextInput
        label="Outdoor temperature in F"
        description="In the shade, away from walls and vents"
        size="lg"
        inputMode="decimal"
        autoComplete="off"
        value={outdoor}
        onChange={(event) => change({ outdoor: event.currentTarget.value })}
      />
      {choose('rain48', 'Rain in the last 48 hours', RAIN)}
      {choose('snow', 'Snow on the ground and roof', SNOW)}
      {choose('water', 'Water', UTILITY)}
      {choose('gas', 'Gas', UTILITY)}
      {choose('electricity', 'Electricity', UTILITY)}
      {choose('house', 'House', HOUSE)}
      <p className={classes.soft}>What was found off stays off: it is told, and a return visit offered.</p>
      <Record
        ready={ready}
        onPress={() => void addAtDoor(site, { do: 'conditions', outdoorF, ...chosen }).then((kept) => kept && done())}
      />
    </>
  );
}

type Kept = { asked: 'occupant' | 'looked' | null; loads: (keyof typeof LOADS)[]; where: string };
const NOT_ASKED: Kept = { asked: null, loads: [], where: '' };

function Loads({ site, done }: Form): ReactNode {
  const [{ asked, loads, where }, change] = useDraft(site.record.id, placeFor('loads'), NOT_ASKED);
  return (
    <>
      <Choices
        legend="Before any power is interrupted"
        name="asked"
        options={[
          { key: 'occupant', label: 'The occupant was asked' },
          { key: 'looked', label: 'Nobody to ask: we looked through the house' },
        ]}
        value={asked}
        onChange={(one) => change({ asked: one })}
      />
      <Ticks legend="There is" options={optionsOf(LOADS)} value={loads} onChange={(some) => change({ loads: some })} />
      {loads.includes('medical') ? (
        <p className={classes.caution}>A medical device is never cut off: no test anywhere in its reach.</p>
      ) : null}
      {loads.length > 0 ? (
        <TextInput
          label="Where each of them is"
          size="lg"
          mt="sm"
          value={where}
          onChange={(event) => change({ where: event.currentTarget.value })}
        />
      ) : null}
      <Record
        ready={asked !== null && (loads.length === 0 || where.trim() !== '')}
        onPress={() => {
          if (asked !== null) void addAtDoor(site, { do: 'loads', asked, loads }, { where }).then((kept) => kept && done());
        }}
      />
    </>
  );
}
