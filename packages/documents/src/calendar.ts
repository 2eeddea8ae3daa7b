// Calendars as iCalendar text (RFC 5545): a person's own, and the invitation to one appointment. Equal events give equal text.
import ical, {
  ICalAttendeeRole,
  ICalAttendeeStatus,
  ICalCalendarMethod,
  ICalEventClass,
  ICalEventStatus,
  ICalEventTransparency,
  type ICalCalendar,
  type ICalEvent,
} from 'ical-generator';

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

const PRODUCT = { company: 'Backsight', product: 'visits', language: 'EN' };

const add = (calendar: ICalCalendar, event: CalendarEvent, status: ICalEventStatus): ICalEvent =>
  calendar.createEvent({
    id: event.uid,
    start: event.startsAt,
    end: event.endsAt,
    stamp: event.stampedAt,
    summary: event.summary,
    sequence: event.sequence ?? 0,
    class: ICalEventClass.PRIVATE,
    status,
    transparency: ICalEventTransparency.OPAQUE,
    ...(event.location === undefined ? {} : { location: event.location }),
  });

/** iCalendar text with instants in UTC, lines ended by CRLF and folded at 75 octets. `name` is what a calendar program calls the subscription. */
export function calendarText(name: string, events: readonly CalendarEvent[]): string {
  const calendar = ical({ name, method: ICalCalendarMethod.PUBLISH, prodId: PRODUCT });
  for (const event of events) add(calendar, event, event.tentative ? ICalEventStatus.TENTATIVE : ICalEventStatus.CONFIRMED);
  return calendar.toString();
}

type Address = { name: string; email: string };
export type Invitation = { method: 'REQUEST' | 'CANCEL'; organizer: Address; attendee: Address; event: CalendarEvent };

/**
 * An appointment as it is sent to who is to be there (RFC 5546, 3.2.2 and 3.2.5): one event, its organizer and one attendee, who need not
 * answer. A move is a REQUEST with the same uid and a higher sequence.
 */
export function invitationText({ method, organizer, attendee, event }: Invitation): string {
  const calendar = ical({ method: ICalCalendarMethod[method], prodId: PRODUCT });
  const one = add(calendar, event, method === 'CANCEL' ? ICalEventStatus.CANCELLED : ICalEventStatus.CONFIRMED);
  one.organizer(organizer);
  one.createAttendee({
    ...attendee,
    role: ICalAttendeeRole.REQ,
    status: ICalAttendeeStatus.NEEDSACTION,
    rsvp: false,
  });
  return calendar.toString();
}
