// The reset, and after it: the same receptacles tested again and counted; what could not be reached is looked at.
import type { ReactNode } from 'react';
import { Button, TextInput } from '@mantine/core';
import { countsOf, notBack, type DeviceTest, type Outlet } from '@backsight/domain/sitework/deviceTest';
import { useDraft } from '../../api/phone/drafts.ts';
import { addToTest } from './deviceSteps.ts';
import type { Site } from './SitePage.tsx';
import { Ticks } from './Ticks.tsx';
import classes from './sitework.module.css';

type Counted = { typed: string; dead: string[]; running: string[] };
const NOT_COUNTED: Counted = { typed: '', dead: [], running: [] };

export function DeviceConfirm({ site, test }: { site: Site; test: DeviceTest }): ReactNode {
  const open = notBack(test);
  const unset = test.resets === null;
  const reached = open.filter((outlet) => outlet.reached);
  const others = open.filter((outlet) => !outlet.reached);
  const [{ typed, dead, running }, change, end] = useDraft(site.record.id, `count ${test.device}`, NOT_COUNTED);
  const count = typed.trim() === '' ? null : Number(typed);
  const missing = count === null ? 0 : reached.length - count;
  const fits = reached.length === 0 || (count !== null && Number.isInteger(count) && missing >= 0 && dead.length === Math.max(missing, 0));
  const put = () => {
    const live = [...reached.filter(({ id }) => !dead.includes(id)), ...others.filter(({ id }) => running.includes(id))];
    const left = open.filter((outlet) => !live.includes(outlet));
    const { device } = test;
    void addToTest(site, device, [
      ...(unset ? [{ do: 'reset', device, resets: true } as const] : []),
      { do: 'power_back', device, live: live.map(({ id }) => id), dead: left.map(({ id }) => id) },
    ]).then((kept) => kept && end());
  };
  const label = ({ where, appliance }: Outlet): string => (appliance ? `${where}: ${appliance}` : where);
  return (
    <>
      {unset ? (
        <p className={classes.caution}>
          <strong>{countsOf(test).dead} without power. Reset it now.</strong>
          Reset this device only: no breaker, and no device that was off as found.
        </p>
      ) : null}
      <p className={classes.notice}>A reset button that clicks is no proof of power. Test the same receptacles again, each of them.</p>
      {reached.length > 0 ? (
        <TextInput
          label={`Count of receptacles live again; before it was ${reached.length}`}
          size="lg"
          mt="sm"
          inputMode="numeric"
          autoComplete="off"
          value={typed}
          error={count !== null && missing < 0 ? `At most ${reached.length} were noted.` : undefined}
          onChange={(event) => change({ typed: event.currentTarget.value, dead: [] })}
        />
      ) : null}
      {missing > 0 ? (
        <Ticks
          legend={`Which ${missing} stay dead`}
          options={reached.map((outlet) => ({ key: outlet.id, label: label(outlet) }))}
          value={dead}
          onChange={(some) => change({ dead: some })}
        />
      ) : null}
      {others.length > 0 ? (
        <Ticks
          legend="Looked at, and running again"
          options={others.map((outlet) => ({ key: outlet.id, label: label(outlet) }))}
          value={running}
          onChange={(some) => change({ running: some })}
        />
      ) : null}
      <div className={classes.acts}>
        <Button size="xl" fullWidth disabled={!fits} onClick={put}>
          {unset ? 'It is reset: record what is live again' : 'Record what is live again'}
        </Button>
        {unset ? (
          <Button
            size="xl"
            fullWidth
            variant="default"
            onClick={() => void addToTest(site, test.device, [{ do: 'reset', device: test.device, resets: false }])}
          >
            It does not reset
          </Button>
        ) : null}
      </div>
    </>
  );
}
