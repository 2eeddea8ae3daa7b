// Answers about fee schedules, services and pay rules.
import type { Answer } from '../answer.ts';
import { all, one } from '../tables.ts';
import { isoDay, sortBy } from '../when.ts';

export const FEE_SET_UP_ANSWERS: readonly Answer[] = [
  {
    marks: ['FROM inquiry i JOIN fee_schedule s', 'WHERE i.id = $1::uuid'],
    reply: (t, [id]) =>
      [one(t, 'inquiry', id)].flatMap((i) =>
        i
          ? [
              {
                ...i,
                followUpOn: isoDay(i.followUpOn),
                scheduleNumber: one(t, 'feeSchedule', i.scheduleId)!.number,
                by: one(t, 'person', i.recordedBy)!.name,
              },
            ]
          : [],
      ),
  },
  {
    marks: ['version, body FROM fee_schedule WHERE id = $1::uuid'],
    reply: (t, [id]) => [one(t, 'feeSchedule', id)].filter(Boolean) as unknown[],
  },
  {
    marks: ['version, body FROM fee_schedule WHERE state ='],
    reply: (t) => all(t, 'feeSchedule').filter(({ state }) => state === 'in_force'),
  },
  {
    marks: ['coalesce(max(number), 0)::int AS number FROM fee_schedule'],
    reply: (t) => [{ number: Math.max(0, ...all(t, 'feeSchedule').map(({ number }) => number)) }],
  },
  {
    marks: ['FROM service ORDER BY position, key'],
    reply: (t) => sortBy(all(t, 'service'), ({ position }) => position),
  },
  {
    marks: ['max(happened_on)::text AS day FROM visit_pay'],
    reply: (t, [personId]) => {
      const days = all(t, 'visitPay').filter((pay) => pay.personId === personId);
      return [{ day: isoDay(days.at(-1)?.happenedOn ?? null) }];
    },
  },
];
