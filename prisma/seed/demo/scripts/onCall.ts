// Who is on call outside office hours, and by day; set by the office once, from the time at which the firm began with the service.
import { shiftDay } from '@backsight/domain/shared/calendar';
import type { Duty } from '@backsight/domain/callbacks/onCall';
import { addDuty } from '@backsight/usecases/callbacks/onCallList';
import { BEGAN_DAYS_AGO } from '../firm.ts';
import { PEOPLE } from '../people.ts';
import type { Stage } from '../stage.ts';
import { OFFICE, type DemoContext } from './context.ts';

const [WEEKDAYS, WEEKEND, ALL] = [
  [1, 2, 3, 4, 5],
  [6, 7],
  [1, 2, 3, 4, 5, 6, 7],
];
const NIGHT = { startMinute: 1020, endMinute: 480 };
const DAY = { startMinute: 480, endMinute: 1020 };

/** Ruth by weekday, Tomas on weekends and behind her. */
export function keepsOnCall({ calendar }: DemoContext, stage: Stage): void {
  const fromDay = shiftDay(calendar.today, -BEGAN_DAYS_AGO);
  const lines: Omit<Duty, 'on' | 'fromDay' | 'untilDay'>[] = [
    { personId: PEOPLE.office.id, position: 1, weekdays: WEEKDAYS!, ...DAY },
    { personId: PEOPLE.ruth.id, position: 1, weekdays: WEEKDAYS!, ...NIGHT },
    { personId: PEOPLE.tomas.id, position: 1, weekdays: WEEKEND!, ...DAY },
    { personId: PEOPLE.tomas.id, position: 1, weekdays: WEEKEND!, ...NIGHT },
    { personId: PEOPLE.tomas.id, position: 2, weekdays: ALL!, startMinute: 0, endMinute: 1440 },
  ];
  stage.at(calendar.at(fromDay, 10), async ({ act, newId }) => {
    for (const line of lines) await act(OFFICE, addDuty, { ...line, on: true, fromDay, untilDay: null, id: newId() });
  });
}
