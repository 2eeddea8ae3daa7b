// What is ordered: found by the words that callers use, each with the reason why it is offered or not.
import { useState, type ReactNode } from 'react';
import { Checkbox, Fieldset, Stack, TextInput } from '@mantine/core';
import type { Quote } from '@backsight/contract/jobs';
import type { Draft } from './draft.ts';

type Service = Quote['services'][number];

const fits = (service: Service, text: string): boolean =>
  [service.name, ...service.searchWords].some((word) => word.toLowerCase().includes(text));
const SHOWN_UNASKED = 6;

export function Services({
  draft,
  change,
  services,
}: {
  draft: Draft;
  change: (part: Partial<Draft>) => void;
  services: readonly Service[];
}): ReactNode {
  const [text, setText] = useState('');
  const wanted = text.trim().toLowerCase();
  const found = services.filter(
    (service) => draft.services.includes(service.key) || (wanted ? fits(service, wanted) : service.offered !== 'no'),
  );
  const shown = wanted ? found : found.slice(0, Math.max(SHOWN_UNASKED, draft.services.length));
  const toggle = (key: string) =>
    change({ services: draft.services.includes(key) ? draft.services.filter((one) => one !== key) : [...draft.services, key] });
  return (
    <Fieldset legend="What is ordered">
      <TextInput
        label="Find a service"
        placeholder="termites, thermal, well ..."
        type="search"
        value={text}
        onChange={(event) => setText(event.currentTarget.value)}
      />
      <Stack gap="xs" mt="sm">
        {shown.map((service) => (
          <Checkbox
            key={service.key}
            label={service.name}
            description={service.why}
            checked={draft.services.includes(service.key)}
            disabled={service.base || (service.offered === 'no' && !draft.services.includes(service.key))}
            onChange={() => toggle(service.key)}
          />
        ))}
        {shown.length === 0 ? <p role="status">No service has this word.</p> : null}
      </Stack>
    </Fieldset>
  );
}
