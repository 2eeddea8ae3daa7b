// Says in which zone times are, where the device runs in another one.
import { useState, type ReactNode } from 'react';
import { useMe } from '../api/people.ts';
import { zoneName, zonesDiffer } from './zones.ts';
import classes from './note.module.css';

export function ZoneNote(): ReactNode {
  const { zone } = useMe();
  const own = Intl.DateTimeFormat().resolvedOptions().timeZone;
  const [now] = useState(() => Date.now());
  if (!zonesDiffer(zone, own, now)) return null;
  return (
    <p className={classes.zone}>
      Times are those of the firm: {zoneName(zone, now)}. This device runs on {zoneName(own, now)}.
    </p>
  );
}
