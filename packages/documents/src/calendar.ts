// A person's calendar as iCalendar text (RFC 5545), written so that equal events give equal text.
import ical, { ICalCalendarMethod, ICalEventClass, ICalEventStatus, ICalEventTransparency } from 'ical-generator';

/** `summary` and `location` are plain text; `sequence` grows with each change; `stampedAt` is when the event was made. */
export type CalendarEvent = {
  uid: string;
  startsAt: Date;
  endsAt: Date;
  summary: string;
  location?: string;
  tentative?: boolean;
  sequence?: number;
  stampedAt: Date;
};

/** iCalendar text with instants in UTC, lines ended by CRLF and folded at 75 octets. `name` is what a calendar program calls the subscription. */
export function calendarText(name: string, events: readonly CalendarEvent[]): string {
  const calendar = ical({ name, method: ICalCalendarMethod.PUBLISH, prodId: { company: 'Backsight', product: 'visits', language: 'EN' } });
  for (const event of events)
    calendar.createEvent({
      id: event.uid,
      start: event.startsAt,
      end: event.endsAt,
      stamp: event.stampedAt,
      summary: event.summary,
      sequence: event.sequence ?? 0,
      class: ICalEventClass.PRIVATE,
      status: event.tentative ? ICalEventStatus.TENTATIVE : ICalEventStatus.CONFIRMED,
      transparency: ICalEventTransparency.OPAQUE,
      ...(event.location === undefined ? {} : { location: event.location }),
    });
  return calendar.toString();
}
