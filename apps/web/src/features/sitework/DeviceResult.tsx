// The reset, and what came of the test: what it protects, what it does not, and what is still dead.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import { TRIPPED } from '@backsight/domain/sitework/act';
import { countsOf, notBack, notProtected, wasInterrupted, type DeviceTest } from '@backsight/domain/sitework/deviceTest';
import { ButtonLink } from '../../ui/links.tsx';
import { SayOutlet } from './SayOutlet.tsx';
import type { Site } from './SitePage.tsx';
import classes from './sitework.module.css';

export const DeviceReset = ({ site, test }: { site: Site; test: DeviceTest }): ReactNode => (
  <>
    <p className={classes.caution}>
      <strong>{countsOf(test).dead} without power. Reset it now.</strong>
      Reset this device only: no breaker, and no device that was off as found.
    </p>
    <div className={classes.acts}>
      <Button size="xl" fullWidth onClick={() => void site.add({ do: 'reset', device: test.device, resets: true })}>
        It is reset
      </Button>
      <Button size="xl" fullWidth variant="default" onClick={() => void site.add({ do: 'reset', device: test.device, resets: false })}>
        It does not reset
      </Button>
    </div>
  </>
);

export function DeviceResult({ site, test }: { site: Site; test: DeviceTest }): ReactNode {
  const { before, dead, after } = countsOf(test);
  const open = notBack(test);
  const others = notProtected(test);
  const again = () => void site.add({ do: 'power_back', device: test.device, live: open.map(({ id }) => id), dead: [] });
  return (
    <>
      <div className={classes.notice}>
        <p>
          <strong>
            {wasInterrupted(test)
              ? `Live before ${before}, went dead ${dead}, live again ${after}.`
              : `The device: ${TRIPPED[test.result!]}.`}
          </strong>
        </p>
        {test.resets === false ? <p>It trips and does not reset.</p> : null}
      </div>
      {others.length > 0 ? (
        <p>
          Still live while it was tripped, so not protected by it: {others.map(({ where }) => where).join(', ')}. Reported where the date of
          building calls for protection; no failed test.
        </p>
      ) : null}
      {open.length > 0 || test.resets === false ? (
        <div className={classes.caution}>
          <strong>Not as it was:</strong>
          <ul className={classes.plain}>
            {open.map((outlet) => (
              <li key={outlet.id}>
                <SayOutlet outlet={outlet} />
              </li>
            ))}
          </ul>
          Look for another device that our test tripped, and reset that one only. Still dead: tell the occupant and call the office before
          you leave.
          <div className={classes.acts}>
            {open.length > 0 ? (
              <Button size="xl" fullWidth onClick={again}>
                All of these are live now
              </Button>
            ) : null}
            <ButtonLink to="/records/$recordId/restore" params={{ recordId: site.record.id }} size="lg" variant="default">
              Client and office are told
            </ButtonLink>
          </div>
        </div>
      ) : null}
    </>
  );
}
