// Shown while a screen waits for the service.
import type { ReactNode } from 'react';
import { Group, Loader, Text } from '@mantine/core';

export function Loading(): ReactNode {
  return (
    <Group gap="sm" py="lg" role="status">
      <Loader size="xs" />
      <Text c="dimmed">One moment ...</Text>
    </Group>
  );
}
