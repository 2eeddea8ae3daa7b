// The page on which a client reads and signs the agreement, and afterwards finds the signed copy.
import { DateTime } from 'luxon';
import { CAPACITIES, type Capacity } from '@backsight/domain/agreements/signers';
import type { ClientPage } from '@backsight/usecases/agreements/clientPage';
import { html, pageOf, type Html } from './html.ts';

/** What the client had typed when something was missing, and what that was. */
export type Typed = { name: string; read: boolean; consent: boolean; problem: string; field?: string };

const paragraphs = (text: string): Html[] => text.split(/\n{2,}/).flatMap(blockOf);

function blockOf(block: string): Html[] {
  const [first = '', ...rest] = block.split('\n');
  const heading = /^\d+\. \S.{0,70}$/.test(first) || (first.length < 60 && first === first.toUpperCase() && /[A-Z]{4}/.test(first));
  const lines = (heading ? rest : [first, ...rest]).map((line) => html`<p>${line}</p>`);
  return heading ? [html`<h3>${first}</h3>`, ...lines] : lines;
}

const facts = (page: ClientPage): Html =>
  html`<dl>
    <dt>Appointment</dt>
    <dd>${page.appointment || 'not fixed at the moment; the office will tell you'}</dd>
    <dt>Property</dt>
    <dd>${page.address}</dd>
    <dt>Fee</dt>
    <dd>${page.fee}. ${page.terms}</dd>
    <dt>Questions</dt>
    <dd>${page.firm}, <a href="tel:${page.firmPhone}">${page.firmPhone}</a></dd>
  </dl>`;

const when = (page: ClientPage, at: string): string =>
  DateTime.fromISO(at, { zone: page.zone }).setLocale('en-US').toFormat('LLLL d, yyyy, h:mm a ZZZZ');

const METHODS: Record<string, string> = { link: 'on this page', on_site_device: "on the pair's device at the property", paper: 'on paper' };

const sealed = (page: ClientPage, signed: NonNullable<ClientPage['signed']>): Html =>
  html`<section class="note good" role="status">
    <p><strong>Signed by ${signed.name}</strong> on ${when(page, signed.at)}, ${METHODS[signed.method] ?? signed.method}.</p>
    <p class="screen">Please keep a copy: print this page, or save it with your browser's print command.</p>
    <p class="fingerprint">Fingerprint of the signed words (SHA-256): ${signed.sha256}</p>
  </section>`;

const asWhom = (page: ClientPage): Html | null =>
  page.capacity === 'self' ? null : html`<p>You sign ${CAPACITIES[page.capacity as Capacity]}, ${page.authority}.</p>`;

const invalid = (typed: Typed | null, field: string): Html | null =>
  typed?.field === field ? html` aria-invalid="true" aria-describedby="problem"` : null;

const form = (page: ClientPage, typed: Typed | null): Html =>
  html`<form method="post">
    <h2>Sign</h2>
    ${asWhom(page)}
    <input type="hidden" name="sha256" value="${page.sha256}" />
    <label class="check"
      ><input type="checkbox" name="read" value="yes" ${typed?.read ? html` checked` : null}${invalid(typed, 'read')} />
      <span>I have read the agreement above.</span></label
    >
    <div class="paper">${paragraphs(page.consentText)}</div>
    <label class="check"
      ><input type="checkbox" name="consent" value="yes" ${typed?.consent ? html` checked` : null}${invalid(typed, 'consent')} />
      <span>I agree to sign and to receive these papers electronically, and I can read this page.</span></label
    >
    <label for="name">Your full name, as your signature</label>
    <input type="text" id="name" name="name" autocomplete="name" maxlength="120" value="${typed?.name ?? ''}" ${invalid(typed, 'name')} />
    <button type="submit">Sign the agreement</button>
    <p>You would rather have paper? Call ${page.firm} at ${page.firmPhone}; it costs nothing.</p>
  </form>`;

/** The whole page. `typed` is given when a signing was refused. */
export function agreementPage(page: ClientPage, typed: Typed | null): string {
  return pageOf(
    `Agreement with ${page.firm}`,
    html`<p>${page.firm}</p>
      <h1>${page.signed ? 'Your signed agreement' : 'Please read and sign your agreement'}</h1>
      ${
        typed && !page.signed
          ? html`<div class="note bad" role="alert" id="problem">
              <p><strong>${typed.problem}</strong></p>
            </div>`
          : null
      }
      ${page.superseded ? html`<div class="note" role="note"><p>The agreement that this link was made for was replaced. This is the newest one${page.signed ? null : ', which needs your signature'}.</p></div>` : null}
      ${page.signed ? sealed(page, page.signed) : null}
      <p>For ${page.name}, job ${page.jobNumber}.</p>
      ${facts(page)}
      <h2>${page.title}</h2>
      ${page.reviewed ? null : html`<div class="note" role="note"><p>This text is an example that no attorney has reviewed.</p></div>`}
      <article class="paper">${paragraphs(page.body)}</article>
      <h2>How long you may bring a claim</h2>
      <p>
        In Wisconsin, as an example: a claim over a home inspection is understood to be limited to 2 years from its completion; a period of
        6 years for contracts may still apply. The longer one counts until an attorney says otherwise.
      </p>
      <p>Signing before the visit is the policy of this firm.</p>
      ${page.signed ? null : form(page, typed)}`,
  );
}

/** What anybody sees whose link opens nothing. */
export const unknownLinkPage = (): string =>
  pageOf(
    'This link opens nothing',
    html`<h1>This link opens nothing</h1>
      <p>Perhaps it was not copied whole, or a newer link was sent since. Please use the newest mail, or call the office.</p>`,
  );

/** A link whose time is over. */
export const endedLinkPage = (firm: string, phone: string): string =>
  pageOf(
    'This link has ended',
    html`<p>${firm}</p>
      <h1>This link has ended</h1>
      <p>Please call us at <a href="tel:${phone}">${phone}</a>; we send you a new one.</p>`,
  );

/** A link whose job takes place no more. */
export const cancelledPage = ({ firm, firmPhone, address }: { firm: string; firmPhone: string; address: string }): string =>
  pageOf(
    'This appointment was cancelled',
    html`<p>${firm}</p>
      <h1>This appointment was cancelled</h1>
      <p>The inspection of ${address} does not take place, and there is nothing left to sign.</p>
      <p>If that surprises you, please call us at <a href="tel:${firmPhone}">${firmPhone}</a>.</p>`,
  );

/** Something went wrong inside, or the request made no sense. */
export const troublePage = (title: string, text: string): string =>
  pageOf(
    title,
    html`<h1>${title}</h1>
      <p>${text}</p>`,
  );
