// What came of the test: what it protects, what it does not, and what is still dead.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import { TRIPPED } from '@backsight/domain/sitework/act';
import { countsOf, notBack, notProtected, wasInterrupted, type DeviceTest } from '@backsight/domain/sitework/deviceTest';
import { ButtonLink } from '../../ui/links.tsx';
import { addToTest } from './deviceSteps.ts';
import { SayOutlet } from './SayOutlet.tsx';
import type { Site } from './SitePage.tsx';
import classes from './sitework.module.css';

export function DeviceResult({ site, test }: { site: Site; test: DeviceTest }): ReactNode {
  const { before, dead, after } = countsOf(test);
  const open = notBack(test);
  const others = notProtected(test);
  const again = () =>
    void addToTest(site, test.device, [{ do: 'power_back', device: test.device, live: open.map(({ id }) => id), dead: [] }]);
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
