// Somebody is out: the absence is put on file, and the days are planned without that person in three ways.
import { useRef, type ReactNode } from 'react';
import { NativeSelect, SimpleGrid, TextInput } from '@mantine/core';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useNavigate } from '@tanstack/react-router';
import { DateTime } from 'luxon';
import { newId } from '../../api/ids.ts';
import { peopleQuery, useMe } from '../../api/people.ts';
import { addAbsence } from '../../api/personFile.ts';
import { wrongHere } from '../../api/problemError.ts';
import { askSickCall, plansQuery } from '../../api/plans.ts';
import { Form } from '../../ui/Form.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { toInstant, todayIn } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { PlanList } from './PlanList.tsx';

const LABELS = {
  personId: 'Who is out',
  startsAt: 'From',
  endsAt: 'Last day away',
  reason: 'Reason, seen by the office and the person only',
};
const NOW = 'now';
const nextDay = (day: string): string => DateTime.fromISO(day, { zone: 'utc' }).plus({ days: 1 }).toFormat('yyyy-MM-dd');

/** The whole minute from which somebody who leaves now is away. */
const thisMinute = (): string => DateTime.utc().startOf('minute').toISO();

export function SickCallPage(): ReactNode {
  const plans = useQuery(plansQuery('sick_call'));
  return (
    <Page
      title="Somebody is out"
      about="Puts the absence on file and shows three ways to keep the promises of these days. Visits under way keep their people. Nothing changes until you accept one."
    >
      <Ask />
      <ProblemNote of={plans.error} />
      {plans.data && plans.data.items.length > 0 ? (
        <Section title="Lately">
          <PlanList plans={plans.data.items} />
        </Section>
      ) : null}
    </Page>
  );
}

function Ask(): ReactNode {
  const { zone } = useMe();
  const today = todayIn(zone);
  const people = useQuery(peopleQuery);
  const ask = useSickCall();
  const fields = useFields({ personId: '', startsAt: NOW, endsAt: today, reason: 'ill' }, LABELS, ask.error);
  const { personId, startsAt, endsAt, reason } = fields.values;
  const inspectors = (people.data ?? []).filter(({ roles, endedOn }) => endedOn === null && roles.includes('inspector'));
  const froms = [
    { value: NOW, label: 'From now' },
    ...[today, nextDay(today)].map((day, at) => ({ value: day, label: at === 0 ? 'All of today' : 'From tomorrow' })),
  ];
  const send = () =>
    ask.mutate({
      personId,
      from: startsAt,
      startsAt: startsAt === NOW ? thisMinute() : toInstant(`${startsAt}T00:00`, zone),
      endsAt: endsAt === '' ? '' : toInstant(`${nextDay(endsAt < startsAt && startsAt !== NOW ? startsAt : endsAt)}T00:00`, zone),
      reason,
    });
  return (
    <Form
      error={ask.error ?? people.error}
      labels={LABELS}
      draft={fields.draft}
      submit="Show three ways"
      busy={ask.isPending}
      onSubmit={send}
    >
      <SimpleGrid cols={{ base: 1, xs: 2 }}>
        <NativeSelect
          {...fields.text('personId')}
          required
          data={[{ value: '', label: 'Choose' }, ...inspectors.map(({ id, name }) => ({ value: id, label: name }))]}
        />
        <NativeSelect {...fields.text('startsAt')} data={froms} />
        <TextInput {...fields.text('endsAt')} type="date" min={today} required />
        <TextInput {...fields.text('reason')} required />
      </SimpleGrid>
    </Form>
  );
}

const newIds = () => ({ absence: newId(), absenceKey: newId(), plan: newId(), planKey: newId() });

/** The absence first, then the plans; when only the plans fail, sending the same again does not enter the absence twice. */
function useSickCall() {
  const navigate = useNavigate();
  const queries = useQueryClient();
  const last = useRef({ input: '', ids: newIds(), startsAt: '' });
  return useMutation({
    mutationFn: async ({ from, ...sent }: { from: string; personId: string; startsAt: string; endsAt: string; reason: string }) => {
      if (sent.personId === '') throw wrongHere('personId', 'Say who is out.');
      if (sent.endsAt === '') throw wrongHere('endsAt', 'Say the last day out; it can be changed later.');
      // "From now" is later when it is sent again, and still the same call.
      const input = JSON.stringify([sent.personId, from, sent.endsAt, sent.reason]);
      if (last.current.input !== input) last.current = { input, ids: newIds(), startsAt: sent.startsAt };
      const { ids, startsAt } = last.current;
      await addAbsence({ ...sent, startsAt, id: ids.absence, key: ids.absenceKey });
      return askSickCall({ id: ids.plan, key: ids.planKey, absenceId: ids.absence, weights: {} });
    },
    onSuccess: async ({ id }) => {
      await queries.invalidateQueries({ queryKey: ['plans'] });
      await navigate({ to: '/day-plan/$planId', params: { planId: id } });
    },
  });
}
