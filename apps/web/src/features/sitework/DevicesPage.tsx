// Ground-fault devices: note what is live, trip, see what went dead, reset, see every one that was live live again.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useNavigate, useSearch } from '@tanstack/react-router';
import { deviceTests, nextPart, type DeviceTest } from '@backsight/domain/sitework/deviceTest';
import { PROTECTED_SINCE } from '@backsight/domain/sitework/groundFault';
import { ButtonLink } from '../../ui/links.tsx';
import { deviceEntries, noneHere, recordedHere } from './deviceSteps.ts';
import { DeviceConfirm } from './DeviceConfirm.tsx';
import { DeviceNote } from './DeviceNote.tsx';
import { DeviceResult } from './DeviceResult.tsx';
import { SitePage, type Site } from './SitePage.tsx';
import classes from './sitework.module.css';

export const DevicesPage = (): ReactNode => <SitePage title="Ground-fault devices">{(site) => <Devices site={site} />}</SitePage>;

const SAYS = {
  note: 'not tested yet',
  reset: 'tripped, not reset',
  confirm: 'reset; power not confirmed',
  told: 'something is still dead',
  whole: 'tested, all live again',
} as const;

function Devices({ site }: { site: Site }): ReactNode {
  const { device } = useSearch({ strict: false }) as { device?: string };
  const navigate = useNavigate();
  const { record, acts } = site;
  const items = record.items.filter(({ kind }) => kind === 'ground_fault_device');
  const tests = deviceTests(acts);
  const open = (id?: string) =>
    void navigate({ to: '/records/$recordId/devices', params: { recordId: record.id }, search: { device: id } });
  const chosen = items.find(({ id }) => id === device);
  const following = items.find(({ id }) => id !== device && !recordedHere(site, id));
  const next = following ? { label: following.label, go: () => open(following.id) } : null;
  if (chosen) return <OneDevice key={chosen.id} site={site} item={chosen} test={tests.get(chosen.id)} next={next} onLeave={() => open()} />;
  return (
    <>
      <AskedFirst site={site} />
      {items.length === 0 ? <p>No ground-fault device is named yet. Add one among the things found here.</p> : null}
      <ul className={classes.list}>
        {items.map((item) => (
          <li key={item.id}>
            <button type="button" className={classes.jump} onClick={() => open(item.id)}>
              <span>{item.label}</span>
              <span>{recordedHere(site, item.id) && !tests.has(item.id) ? 'recorded' : SAYS[nextPart(tests.get(item.id))]}</span>
            </button>
          </li>
        ))}
      </ul>
      <Since />
    </>
  );
}

/** Nothing is tripped before it was asked what must not lose power. */
export function AskedFirst({ site: { record, acts } }: { site: Site }): ReactNode {
  const asked = acts.findLast(({ act }) => act.do === 'loads');
  if (asked?.act.do === 'loads' && asked.act.loads.includes('medical'))
    return <p className={classes.caution}>A medical device is in the house: no test anywhere in its reach.</p>;
  if (asked) return null;
  return (
    <div className={classes.caution}>
      <strong>First ask what must not lose power.</strong>
      Medical device, freezer, sump pump, aquarium, alarm, computer.
      <div className={classes.acts}>
        <ButtonLink to="/records/$recordId/door" params={{ recordId: record.id }} size="lg" variant="default">
          To the question
        </ButtonLink>
      </div>
    </div>
  );
}

type One = {
  site: Site;
  item: Site['record']['items'][number];
  test: DeviceTest | undefined;
  /** Another device with steps left. */
  next: { label: string; go: () => void } | null;
  onLeave: () => void;
};

function OneDevice({ site, item, test, next: following, onLeave }: One): ReactNode {
  const next = nextPart(test);
  const left = deviceEntries(site, item.id, test);
  return (
    <>
      <h2 className={classes.day}>{item.label}</h2>
      <AskedFirst site={site} />
      {next === 'note' ? <DeviceNote site={site} device={item.id} test={test} /> : null}
      {next === 'reset' || next === 'confirm' ? <DeviceConfirm site={site} test={test!} /> : null}
      {next === 'told' || next === 'whole' ? <DeviceResult site={site} test={test!} /> : null}
      <div className={classes.acts}>
        {(next === 'told' || next === 'whole') && left.length > 0 ? (
          <Button size="xl" fullWidth onClick={() => void site.addEntries(left).then((kept) => kept && onLeave())}>
            Record its steps ({left.length})
          </Button>
        ) : null}
        {next === 'note' && !test && !recordedHere(site, item.id) ? (
          <Button
            variant="default"
            size="xl"
            fullWidth
            onClick={() => void site.addEntries(noneHere(site, item.id)).then((kept) => kept && onLeave())}
          >
            No such device: none at this property
          </Button>
        ) : null}
        {following && recordedHere(site, item.id) ? (
          <Button size="xl" fullWidth onClick={following.go}>
            Next device: {following.label}
          </Button>
        ) : null}
        <Button variant="default" size="xl" fullWidth onClick={onLeave}>
          All devices
        </Button>
      </div>
    </>
  );
}

const Since = (): ReactNode => (
  <details className={classes.more}>
    <summary>Since when protection is called for</summary>
    <p className={classes.soft}>
      By year of building, National Electrical Code, from memory. What applied where the house stands may differ.
    </p>
    <ul className={classes.plain}>
      {PROTECTED_SINCE.map(({ place, year }) => (
        <li key={place}>
          {year}: {place}
        </li>
      ))}
    </ul>
  </details>
);
