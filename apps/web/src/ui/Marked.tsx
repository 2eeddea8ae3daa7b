// A piece of reworded text: kept, added or removed, told by more than its line.
import type { ReactNode } from 'react';
import { VisuallyHidden } from '@mantine/core';

export function Marked({ mark, text }: { mark: 'same' | 'added' | 'removed'; text: string }): ReactNode {
  if (mark === 'same') return text;
  return mark === 'added' ? (
    <ins>
      <VisuallyHidden>added: </VisuallyHidden>
      {text}
    </ins>
  ) : (
    <del>
      <VisuallyHidden>removed: </VisuallyHidden>
      {text}
    </del>
  );
}
