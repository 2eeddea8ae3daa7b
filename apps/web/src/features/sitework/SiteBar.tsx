// Always at hand while recording: danger to people first, then what belongs to the visit as a whole.
import type { ReactNode } from 'react';
import type { MemberRecord } from '@backsight/contract/sitework';
import type { KnownAct } from '@backsight/domain/sitework/act';
import { deviceTests, nextPart } from '@backsight/domain/sitework/deviceTest';
import { stillOpen } from '@backsight/domain/sitework/restore';
import { ButtonLink } from '../../ui/links.tsx';
import classes from './sitework.module.css';

type Props = { record: MemberRecord; acts: readonly KnownAct[] };
type Leaf = '/door' | '/devices' | '/restore' | '/moisture' | '/damage';

export function SiteBar({ record, acts }: Props): ReactNode {
  const params = { recordId: record.id };
  const has = (kind: string) => acts.some(({ act }) => act.do === kind);
  const atDoor = ['arrival', 'conditions', 'loads'].filter((kind) => !has(kind)).length;
  const devices = record.items.filter(({ kind }) => kind === 'ground_fault_device');
  const tests = deviceTests(acts);
  const begun = devices.filter(({ id }) => tests.has(id) && nextPart(tests.get(id)) !== 'whole').length;
  const open = stillOpen(acts).length;
  const leaf = (to: Leaf, label: string): ReactNode => (
    <ButtonLink to={`/records/$recordId${to}`} params={params} variant="default" size="lg">
      {label}
    </ButtonLink>
  );
  return (
    <nav aria-label="The visit as a whole">
      <ButtonLink to="/records/$recordId/danger" params={params} size="lg" color="red" variant="outline" fullWidth>
        Danger to people here
      </ButtonLink>
      {atDoor > 0 && record.state === 'open' ? (
        <ButtonLink to="/records/$recordId/door" params={params} variant="light" size="lg" fullWidth mt="xs">
          At the door ({atDoor} left)
        </ButtonLink>
      ) : null}
      <details className={classes.more}>
        <summary>The visit as a whole{open > 0 ? `: ${open} not as found` : ''}</summary>
        <div className={classes.sitebar}>
          {atDoor > 0 ? null : leaf('/door', 'At the door')}
          {leaf('/restore', open > 0 ? `Not as found (${open})` : 'Leave as found')}
          {devices.length > 0 ? leaf('/devices', begun > 0 ? `Ground fault (${begun} begun)` : 'Ground fault') : null}
          {leaf('/moisture', 'Moisture')}
          {leaf('/damage', 'Damage or injury')}
          <ButtonLink to="/callbacks/new" search={{ job: String(record.visit.jobNumber), kind: 'near_miss' }} variant="default" size="lg">
            Near-miss
          </ButtonLink>
        </div>
      </details>
    </nav>
  );
}
