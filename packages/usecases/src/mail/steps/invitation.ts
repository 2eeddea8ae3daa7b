// The invitation that goes along with a mail about an appointment.
import { invitationText, type Invitation } from '@backsight/documents/calendar';
import { findFirm } from '@backsight/store/firm';
import type { Work } from '../../run.ts';

export type Invited = { visitId: string; version: number; startsAt: Date; endsAt: Date; summary: string; location: string };

/** The same visit has the same uid in every calendar, and its version as sequence. */
export const visitUid = (visitId: string): string => `visit-${visitId}@backsight`;

/** A writer of invitations for everybody who is told of one visit. */
export async function inviter(
  work: Work,
  method: Invitation['method'],
  visit: Invited,
): Promise<(to: { name: string; email: string }) => string> {
  const firm = (await findFirm(work.tx))!;
  const { visitId, version, startsAt, endsAt, summary, location } = visit;
  const event = { uid: visitUid(visitId), sequence: version, startsAt, endsAt, summary, location, stampedAt: work.now };
  return (attendee) => invitationText({ method, organizer: { name: firm.name, email: firm.email }, attendee, event });
}
