// One house under the rules as they stand on the screen, beside what is in force: lines change as facts do.
import { useState, type ReactNode } from 'react';
import { Checkbox, SimpleGrid, Stack, TextInput } from '@mantine/core';
import { useDebouncedValue } from '@mantine/hooks';
import { useQuery } from '@tanstack/react-query';
import { FACTS, type FactKey, type PropertyFacts } from '@backsight/domain/shared/facts';
import type { FeeRule, WhatIfAnswer } from '@backsight/contract/fees/schedules';
import { whatIfQuery } from '../../api/feeSetUp.ts';
import { useMe } from '../../api/people.ts';
import { minuteOf } from '../../ui/clock.ts';
import { FactInput } from '../../ui/FactInput.tsx';
import { Money } from '../../ui/Money.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { todayIn } from '../../ui/time.ts';

const FIRST: FactKey[] = ['livingArea', 'yearBuilt', 'foundation', 'units'];
/** Milliseconds after the last key before the service is asked. */
const PAUSE = 40;

export function WhatIf({ rules, services }: { rules: FeeRule[]; services: Readonly<Record<string, string>> }): ReactNode {
  const { zone } = useMe();
  const [facts, setFacts] = useState<PropertyFacts>({ livingArea: 1800, yearBuilt: 1995 });
  const [ordered, setOrdered] = useState<string[]>(() => Object.keys(services).slice(0, 1));
  const [day, setDay] = useState(() => todayIn(zone));
  const [start, setStart] = useState('09:00');
  const [travel, setTravel] = useState('20');
  const travelMinutes = /^\d{1,3}$/.test(travel) ? Number(travel) : null;
  const [asked] = useDebouncedValue({ rules, facts, services: ordered, day, travelMinutes, startMinute: minuteOf(start) }, PAUSE);
  const found = useQuery(whatIfQuery(asked));
  const further = (Object.keys(FACTS) as FactKey[]).filter((key) => !FIRST.includes(key));
  return (
    <SimpleGrid cols={{ base: 1, md: 2 }}>
      <div>
        <SimpleGrid cols={{ base: 1, xs: 2 }}>
          {FIRST.map((fact) => (
            <FactInput key={fact} fact={fact} facts={facts} onChange={setFacts} />
          ))}
          <TextInput label="Day of the visit" type="date" value={day} onChange={(event) => setDay(event.currentTarget.value)} />
          <TextInput label="Start" type="time" value={start} onChange={(event) => setStart(event.currentTarget.value)} />
          <TextInput
            label="Minutes of travel one way"
            inputMode="numeric"
            value={travel}
            onChange={(event) => setTravel(event.currentTarget.value)}
          />
        </SimpleGrid>
        <Checkbox.Group label="Services" mt="sm" value={ordered} onChange={setOrdered}>
          <Stack gap="xs" mt={4}>
            {Object.entries(services).map(([key, label]) => (
              <Checkbox key={key} value={key} label={label} />
            ))}
          </Stack>
        </Checkbox.Group>
        <details style={{ marginTop: 'var(--bs-space-6)' }}>
          <summary>Further facts of the house</summary>
          <SimpleGrid cols={{ base: 1, xs: 2 }}>
            {further.map((fact) => (
              <FactInput key={fact} fact={fact} facts={facts} onChange={setFacts} />
            ))}
          </SimpleGrid>
        </details>
      </div>
      <div>
        <ProblemNote of={found.error} />
        {found.data ? <Lines answer={found.data} /> : null}
      </div>
    </SimpleGrid>
  );
}

function Lines({ answer: { tried, now } }: { answer: WhatIfAnswer }): ReactNode {
  const difference = tried.totalCents - now.totalCents;
  return (
    <section aria-label="Lines of the fee">
      <p role="status">
        <strong>
          <Money cents={tried.totalCents} />
        </strong>
        {difference === 0 ? ', the same as in force now' : ', in force now '}
        {difference === 0 ? '' : <Money cents={now.totalCents} />}
        {difference === 0 ? '.' : ` (${difference > 0 ? 'dearer' : 'cheaper'}).`}
      </p>
      <ul>
        {tried.lines.map((line) => (
          <li key={line.rule}>
            <strong>{line.label}</strong> <Money cents={line.cents} /> <span style={{ color: 'var(--bs-ink-soft)' }}>{line.reason}</span>
          </li>
        ))}
      </ul>
      {tried.assumptions.length > 0 ? (
        <ul style={{ color: 'var(--bs-ink-soft)' }}>
          {tried.assumptions.map((text) => (
            <li key={text}>{text}</li>
          ))}
        </ul>
      ) : null}
    </section>
  );
}
