// What is ordered: found by the words that callers use, each with the reason why it is offered or not.
import { memo, useState, type ReactNode } from 'react';
import { Checkbox, Fieldset, Stack, TextInput } from '@mantine/core';
import type { Quote } from '@backsight/contract/jobs';
import { formatUsd } from '@backsight/domain/shared/money';
import { minutesText } from '../../ui/minutes.ts';
import type { Draft } from './draft.ts';

type Service = Quote['services'][number];

const fits = (service: Service, text: string): boolean =>
  [service.name, ...service.searchWords].some((word) => word.toLowerCase().includes(text));
const SHOWN_UNASKED = 6;

/** What it would add, before it is ordered: 'Adds $175.00 and 15 min. '. */
function addsText({ adds }: Service): string {
  if (!adds) return '';
  const price = adds.cents === null ? 'No price is set' : `Adds ${formatUsd(adds.cents)}`;
  return `${price}${adds.minutes > 0 ? ` and ${minutesText(adds.minutes)}` : ''}. `;
}

type Props = { ordered: Draft['services']; change: (part: Partial<Draft>) => void; services: readonly Service[] };

export const Services = memo(function Services({ ordered, change, services }: Props): ReactNode {
  const [text, setText] = useState('');
  const wanted = text.trim().toLowerCase();
  const found = services.filter((service) => ordered.includes(service.key) || (wanted ? fits(service, wanted) : service.offered !== 'no'));
  const shown = wanted ? found : found.slice(0, Math.max(SHOWN_UNASKED, ordered.length));
  const toggle = (key: string) => change({ services: ordered.includes(key) ? ordered.filter((one) => one !== key) : [...ordered, key] });
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
            description={`${addsText(service)}${service.why}`}
            checked={ordered.includes(service.key)}
            disabled={service.base || (service.offered === 'no' && !ordered.includes(service.key))}
            onChange={() => toggle(service.key)}
          />
        ))}
        {shown.length === 0 ? <p role="status">No service has this word.</p> : null}
      </Stack>
    </Fieldset>
  );
});
