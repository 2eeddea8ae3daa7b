// A part of a screen with a heading of its own and room for what one can do there.
import type { ReactNode } from 'react';
import { Group, Title } from '@mantine/core';

export function Section({ title, actions, children }: { title: string; actions?: ReactNode; children: ReactNode }): ReactNode {
  return (
    <section aria-label={title} style={{ marginTop: '2rem' }}>
      <Group justify="space-between" mb="sm">
        <Title order={2}>{title}</Title>
        {actions}
      </Group>
      {children}
    </section>
  );
}
