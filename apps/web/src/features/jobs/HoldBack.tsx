// What an owner holds back from the file of a job, one by one, each with its reason; the list becomes part of the file.
import type { ReactNode } from 'react';
import { Checkbox, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { fileItemsQuery } from '../../api/jobFiles.ts';
import { ProblemNote } from '../../ui/ProblemNote.tsx';

/** Reasons by the key of what is held back. */
export type Chosen = Readonly<Record<string, string>>;

export function HoldBack({ jobId, chosen, onChange }: { jobId: string; chosen: Chosen; onChange: (chosen: Chosen) => void }): ReactNode {
  const { data, error } = useQuery(fileItemsQuery(jobId));
  const set = (key: string, why: string | null) => {
    const { [key]: _, ...rest } = chosen;
    onChange(why === null ? rest : { ...rest, [key]: why });
  };
  return (
    <details style={{ marginTop: 'var(--bs-space-5)' }}>
      <summary>Hold something back ({Object.keys(chosen).length} chosen)</summary>
      <p>What is held back and why stands in the file itself. Ask the attorney first: some of it may have to be handed over.</p>
      <ProblemNote of={error} />
      <datalist id="reasons-to-hold-back">
        {data?.reasons.map((reason) => (
          <option key={reason} value={reason}>
            {reason}
          </option>
        ))}
      </datalist>
      {data?.items.map(({ key, what }) => (
        <div key={key} style={{ marginBottom: 'var(--bs-space-3)' }}>
          <Checkbox
            label={what}
            checked={key in chosen}
            onChange={(event) => set(key, event.currentTarget.checked ? (data.reasons[0] ?? '') : null)}
          />
          {key in chosen ? (
            <TextInput
              label={`Why: ${what}`}
              list="reasons-to-hold-back"
              value={chosen[key]}
              maxLength={400}
              onChange={(event) => set(key, event.currentTarget.value)}
            />
          ) : null}
        </div>
      ))}
    </details>
  );
}
