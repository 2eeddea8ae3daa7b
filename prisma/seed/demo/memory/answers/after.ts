// Answers about what follows a callback: who looks into it, and the days after closing.
import type { Answer } from '../answer.ts';
import { all, by, one } from '../tables.ts';
import { isoDay, sortBy } from '../when.ts';

const DESK = ['owner', 'lead_inspector', 'office_manager'];

export const AFTER_ANSWERS: readonly Answer[] = [
  { marks: ['FROM after_rules WHERE id = 1'], reply: () => [{ checkDays: 30, appealDays: 30, decideDays: 30, version: 1 }] },
  {
    marks: ['FROM callback_assessment a JOIN person p'],
    reply: (t, [id]) =>
      by(t, 'callbackAssessment', 'callbackId', id)
        .slice(-1)
        .map((a) => ({ ...a, at: a.happenedAt, assignee: one(t, 'person', a.assigneeId)!.name, by: one(t, 'person', a.actorId)!.name })),
  },
  {
    marks: ['FROM after_check k JOIN person p'],
    reply: (t, [id]) =>
      by(t, 'afterCheck', 'callbackId', id)
        .map((k) => ({ ...k, dueOn: isoDay(k.dueOn), person: one(t, 'person', k.personId)!.name, words: null, repeatNumber: null }))
        .toReversed(),
  },
  {
    marks: [`r.role IN ('owner', 'lead_inspector', 'office_manager')) ORDER BY p.name`],
    reply: (t, [today]) =>
      sortBy(
        all(t, 'person').filter(
          (p) =>
            (p.endedOn === null || isoDay(p.endedOn)! > String(today)) &&
            by(t, 'personRole', 'personId', p.id).some(({ role }) => DESK.includes(role)),
        ),
        ({ name }) => name,
      ).map((p) => ({ id: p.id, name: p.name, owner: by(t, 'personRole', 'personId', p.id).some(({ role }) => role === 'owner') })),
  },
];
