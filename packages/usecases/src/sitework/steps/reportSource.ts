// The standing entries of sealed records in words, as the report may use them.
import { sayEntry } from '@backsight/domain/sitework/say';
import type { ReportSource } from '@backsight/domain/sitework/report';
import { placeOf } from '@backsight/domain/sitework/value';
import type { Reader } from '@backsight/store/database';
import type { ReportJob } from '@backsight/store/sitework/report';
import { loadRecord, type LoadedRecord } from './loadRecord.ts';

/** Entries of the job's sealed records; where both members recorded, the first member's answer with the other's beside it when it differs. */
export async function reportSources(reader: Reader, job: ReportJob): Promise<ReportSource[]> {
  const sources: ReportSource[] = [];
  for (const visit of job.visits) {
    const loaded = visit.recordState === 'sealed' && visit.recordId ? await loadRecord(reader, visit.recordId) : null;
    if (loaded) sources.push(...sourcesOf(loaded));
  }
  return sources;
}

const sourcesOf = (loaded: LoadedRecord): ReportSource[] =>
  loaded.steps.flatMap((step) => {
    const here = loaded.standing.filter((entry) => placeOf(entry) === placeOf(step));
    const entry =
      loaded.pair.flatMap((person) => here.filter(({ observedBy, outcome }) => observedBy === person && outcome !== 'ended_before'))[0] ??
      here[0];
    if (!entry) return [];
    const answers = [
      ...new Set(
        here.filter(({ outcome }) => outcome === entry.outcome || outcome !== 'ended_before').map((e) => sayEntry(e, step.body.evidence)),
      ),
    ];
    const notes = here.flatMap(({ note }) => note ?? []).join('; ') || null;
    const inWords = step.body.evidence.kind === 'note' && entry.outcome === 'done' && notes !== null;
    return [
      {
        stepKey: step.stepKey,
        itemId: step.itemId,
        title: step.body.title,
        item: loaded.items.find(({ id }) => id === step.itemId)?.label ?? null,
        system: step.system,
        procedure: step.procedureTitle,
        outcome: entry.outcome,
        answer: inWords ? notes : answers.join('; '),
        match: entry.match,
        note: inWords ? null : notes,
        spoken: here.some(({ value }) => value.spoken !== undefined),
      },
    ];
  });
