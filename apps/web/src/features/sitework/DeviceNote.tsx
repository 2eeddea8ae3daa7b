// Before the trip: each live receptacle that the device may feed, what cannot be reached with its appliance; then the trip.
import type { ReactNode } from 'react';
import { Button, TextInput } from '@mantine/core';
import { TRIPPED_BY, type SiteAct } from '@backsight/domain/sitework/act';
import type { DeviceTest } from '@backsight/domain/sitework/deviceTest';
import { newId } from '../../api/ids.ts';
import { useDraft } from '../../api/phone/drafts.ts';
import { Choices } from './Choices.tsx';
import { addToTest } from './deviceSteps.ts';
import { SayOutlet } from './SayOutlet.tsx';
import type { Site } from './SitePage.tsx';
import { Ticks } from './Ticks.tsx';
import classes from './sitework.module.css';

type Props = { site: Site; device: string; test: DeviceTest | undefined };

export function DeviceNote({ site, device, test }: Props): ReactNode {
  const outlets = test?.outlets ?? [];
  return (
    <>
      <p>
        Note each receptacle that is live now in the rooms this device may feed: baths on every floor, garage, outside, basement, kitchen.
      </p>
      <ul className={classes.plain}>
        {outlets.map((outlet) => (
          <li key={outlet.id}>
            <SayOutlet outlet={outlet} />
          </li>
        ))}
      </ul>
      <AddOutlet site={site} device={device} count={outlets.length} />
      <Trip site={site} device={device} test={test} />
    </>
  );
}

const PLACES = ['outside', 'basement', 'laundry', 'crawl space'];

function AddOutlet({ site, device, count }: { site: Site; device: string; count: number }): ReactNode {
  const [{ where, appliance }, change, end] = useDraft(site.record.id, `outlet ${device}`, { where: '', appliance: '' });
  const rooms = site.record.items.filter(({ kind }) => ['bathroom', 'kitchen', 'garage', 'unit'].includes(kind)).map(({ label }) => label);
  const add = (place: string, more: { reached: boolean; runs: boolean | null }) =>
    void site
      .add({ do: 'outlet', device, outlet: newId(), ...more }, { where: place, appliance: more.reached ? '' : appliance })
      .then((kept) => kept && end());
  return (
    <>
      <fieldset className={classes.set}>
        <legend>One more is live in ({count} noted)</legend>
        <div className={classes.pairwise}>
          {[...new Set([...rooms, ...PLACES])].map((place) => (
            <Button key={place} variant="default" size="lg" onClick={() => add(place, { reached: true, runs: null })}>
              {place}
            </Button>
          ))}
        </div>
      </fieldset>
      <details className={classes.more}>
        <summary>Another place, or one that cannot be unplugged or reached</summary>
        <TextInput label="Where" size="lg" value={where} onChange={(event) => change({ where: event.currentTarget.value })} />
        <Button
          variant="default"
          size="lg"
          mt="sm"
          disabled={where.trim() === ''}
          onClick={() => add(where, { reached: true, runs: null })}
        >
          Live there
        </Button>
        <TextInput
          label="Not reached: its appliance, and what it shows now"
          description="freezer, green light"
          size="lg"
          mt="md"
          value={appliance}
          onChange={(event) => change({ appliance: event.currentTarget.value })}
        />
        <div className={classes.acts}>
          {([true, false] as const).map((runs) => (
            <Button
              key={String(runs)}
              variant="default"
              size="lg"
              disabled={where.trim() === '' || appliance.trim() === ''}
              onClick={() => add(where, { reached: false, runs })}
            >
              {runs ? 'Not reached; it runs' : 'Not reached; it does not run'}
            </Button>
          ))}
        </div>
      </details>
    </>
  );
}

const BY = (Object.keys(TRIPPED_BY) as (keyof typeof TRIPPED_BY)[]).map((key) => ({ key, label: TRIPPED_BY[key] }));
type Trip = Extract<SiteAct, { do: 'trip' }>;
const BY_BUTTON: Pick<Trip, 'by' | 'dead'> = { by: 'button', dead: [] };

function Trip({ site, device, test }: Props): ReactNode {
  const [{ by, dead }, change, end] = useDraft(site.record.id, `trip ${device}`, BY_BUTTON);
  const asked = site.acts.some(({ act }) => act.do === 'loads');
  const outlets = test?.outlets ?? [];
  const put = (result: Trip['result']) =>
    void addToTest(site, device, [{ do: 'trip', device, by, result, dead: result === 'trips' ? dead : [] }]).then((kept) => kept && end());
  if (!asked) return null;
  return (
    <>
      <h3>Now trip it, and go through what you noted</h3>
      {outlets.length === 0 ? <p className={classes.soft}>Nothing is noted yet. First note at least its own receptacle.</p> : null}
      <p className={classes.notice}>
        A plug-in tester needs an equipment ground. Where there is none, only the device's own button says anything.
      </p>
      <Choices legend="Tripped by" name="by" options={BY} value={by} onChange={(one) => change({ by: one })} />
      {outlets.length > 0 ? (
        <Ticks
          legend="These went dead: it protects them"
          options={outlets.map(({ id, where, reached, appliance }, at) => ({
            key: id,
            label: `${at + 1}. ${where}${reached ? '' : `: ${appliance}`}`,
          }))}
          value={dead}
          onChange={(some) => change({ dead: some })}
        />
      ) : null}
      <div className={classes.acts}>
        <Button size="xl" fullWidth onClick={() => put('trips')}>
          It trips
        </Button>
        <Button size="xl" fullWidth variant="default" onClick={() => put('no_trip')}>
          It does not trip
        </Button>
        <Button size="xl" fullWidth variant="default" onClick={() => put('dead_as_found')}>
          It was dead as found
        </Button>
      </div>
    </>
  );
}
