// One service that an outside provider does: who, when, for what, and choosing another one.
import { useState, type ReactNode } from 'react';
import { Button, Group, NativeSelect, TextInput } from '@mantine/core';
import type { JobPage as Job } from '@backsight/contract/jobs';
import type { Crew } from '@backsight/contract/schedule/crew';
import { chooseProvider } from '../../api/crew.ts';
import { centsOf, dollarsOf } from '../../ui/amount.ts';
import { Money } from '../../ui/Money.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { dayText } from '../../ui/time.ts';
import { When } from '../../ui/When.tsx';
import { useChange } from './useChange.ts';
import classes from './jobs.module.css';

type Service = Crew['services'][number];
type Props = { service: Service; job: Job; version: number; mayWork: boolean };

export function OutsideService({ service, job, version, mayWork }: Props): ReactNode {
  const [open, setOpen] = useState(false);
  const ahead = mayWork && (job.state === 'held' || job.state === 'booked');
  return (
    <li>
      <div className={classes.words}>
        <strong>{service.name}</strong>: {service.provider ?? 'nobody chosen yet'}
        {service.phone ? `, ${service.phone}` : ''}
        {service.startsAt ? (
          <>
            {', at '}
            <When at={service.startsAt} />
            {` for ${service.minutes} min`}
          </>
        ) : null}
        {service.agreedCents === null ? null : (
          <div className={classes.soft}>
            Agreed: <Money cents={service.agreedCents} />,{' '}
            {service.contractsWithUs ? 'under contract with the firm' : 'contracts with the client'}
          </div>
        )}
      </div>
      {ahead && !open ? (
        <Button size="compact-md" variant="default" onClick={() => setOpen(true)}>
          Choose the provider
        </Button>
      ) : null}
      {open ? <Choose service={service} job={job} version={version} done={() => setOpen(false)} /> : null}
    </li>
  );
}

const until = (day: string | null): string => (day === null ? 'none asked' : dayText(day));

function Choose({ service, job, version, done }: Omit<Props, 'mayWork'> & { done: () => void }): ReactNode {
  const [providerId, setProviderId] = useState(service.providerId ?? service.choices[0]?.id ?? '');
  const chosen = service.choices.find(({ id }) => id === providerId);
  const [cost, setCost] = useState(dollarsOf(service.agreedCents ?? chosen?.costCents ?? 0));
  const send = useChange(chooseProvider, 'The provider is booked for this visit.', done);
  const cents = centsOf(cost);
  return (
    <div className={classes.inline}>
      <ProblemNote of={send.error} />
      <Group gap="sm" align="flex-end">
        <NativeSelect
          label="Provider"
          value={providerId}
          onChange={(event) => {
            const one = service.choices.find(({ id }) => id === event.currentTarget.value);
            setProviderId(event.currentTarget.value);
            if (one) setCost(dollarsOf(one.costCents));
          }}
          data={service.choices.map(({ id, name, licenseUntil, insuranceUntil }) => ({
            value: id,
            label: `${name} (license ${until(licenseUntil)}, certificate ${until(insuranceUntil)})`,
          }))}
        />
        <TextInput
          label="Cost agreed, in dollars"
          value={cost}
          onChange={(event) => setCost(event.currentTarget.value)}
          inputMode="decimal"
          maw="12rem"
        />
        <Button
          loading={send.isPending}
          disabled={!chosen || Number.isNaN(cents)}
          onClick={() => send.mutate({ id: job.id, version, service: service.service, providerId, agreedCents: cents })}
        >
          Book this provider
        </Button>
        <Button variant="default" onClick={done}>
          Leave it
        </Button>
      </Group>
    </div>
  );
}
