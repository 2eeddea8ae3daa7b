// What is shown where a link opens nothing, has ended or was taken back, and where something went wrong: what to do, and whom to call.
import type { WhomToCall } from '@backsight/usecases/firm/whomToCall';
import { html, pageOf, type Html } from './html.ts';

const call = (phone: string): Html => html`<a href="tel:${phone}">${phone}</a>`;

const plainPage = (whom: WhomToCall | null, title: string, ...paragraphs: readonly (Html | string)[]): string =>
  pageOf(
    title,
    html`${whom && html`<p class="firm">${whom.firm}</p>`}
      <h1>${title}</h1>
      ${paragraphs.map((one) => html`<p>${one}</p>`)}`,
  );

/** What anybody sees whose link opens nothing. `whom` is null before the firm is set up. */
export const unknownLinkPage = (whom: WhomToCall | null): string =>
  plainPage(
    whom,
    'This link opens nothing',
    'Perhaps it was not copied whole, or we sent a newer link since. Please use the link in our newest mail.',
    whom ? html`Does that not help? Please call us at ${call(whom.firmPhone)}. We send you a new link.` : 'Please call the office.',
  );

/** A link whose time is over, or that the office took back. */
export const endedLinkPage = (whom: WhomToCall, revoked: boolean): string =>
  plainPage(
    whom,
    revoked ? 'This link was taken back by the office' : 'This link has ended',
    html`You need do nothing else. Please call us at ${call(whom.firmPhone)}, and we send you a new one.`,
  );

/** A link whose job takes place no more. */
export const cancelledPage = ({ address, ...whom }: WhomToCall & { address: string }): string =>
  plainPage(
    whom,
    'This appointment was cancelled',
    html`The inspection of ${address} does not take place, and there is nothing left to sign.`,
    html`Does that surprise you? Please call us at ${call(whom.firmPhone)}.`,
  );

/** Something went wrong inside, or the request made no sense. */
export const troublePage = (title: string, text: string): string => plainPage(null, title, text);
