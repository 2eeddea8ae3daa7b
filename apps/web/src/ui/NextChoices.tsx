// After a time was taken: the next best choices that the service names, each one button.
import type { ReactNode } from 'react';
import { Button, Stack } from '@mantine/core';
import { asProblem } from '../api/problemError.ts';
import { When } from './When.tsx';

type Start = { startsAt: string; first: string; second: string | null };

const lists = (about: unknown): { at: string[]; first: string[]; second: string[]; sentences: string[] } | null => {
  const { nextStartsAt: at, nextFirst: first, nextSecond: second, nextSentences: sentences } = (about ?? {}) as Record<string, unknown>;
  return Array.isArray(at) && Array.isArray(first) && Array.isArray(second) && Array.isArray(sentences)
    ? { at, first, second, sentences }
    : null;
};

export function NextChoices({ of, onTake }: { of: unknown; onTake: (start: Start) => void }): ReactNode {
  const next = lists(asProblem(of)?.problem.about);
  if (!next || next.at.length === 0) return null;
  return (
    <Stack gap={6} align="flex-start">
      {next.at.map((startsAt, n) => (
        <Button
          key={startsAt}
          size="compact-md"
          variant="default"
          title={next.sentences[n]}
          onClick={() => onTake({ startsAt, first: next.first[n]!, second: next.second[n] || null })}
        >
          <span>
            Take <When at={startsAt} /> instead
          </span>
        </Button>
      ))}
    </Stack>
  );
}
