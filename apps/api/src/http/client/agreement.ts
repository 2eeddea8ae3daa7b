// The page on which a client reads and signs the agreement, and afterwards finds the signed copy.
import { DateTime } from 'luxon';
import type { ClientPage } from '@backsight/usecases/agreements/clientPage';
import { drawing } from './drawing.ts';
import { html, pageOf, type Html } from './html.ts';
import { paragraphs } from './paragraphs.ts';
import { nameOf, notSigned, otherwise, signForm, type Typed } from './signForm.ts';

const facts = (page: ClientPage, token: string): Html =>
  html`<dl>
    ${
      page.release
        ? null
        : html`<dt>Appointment</dt>
            <dd>
              ${page.appointment || 'not fixed at the moment; the office will tell you'}
              ${page.signed ? null : html`<br /><span class="screen">Does that not suit you? Please call us.</span>`}
            </dd>`
    }
    <dt>Property</dt>
    <dd>${page.address}</dd>
    ${
      page.release
        ? null
        : html`<dt>Fee</dt>
            <dd>${page.fee}. ${page.terms}</dd>`
    }
    <dt>Questions</dt>
    <dd>${page.firm}, <a href="tel:${page.firmPhone}">${page.firmPhone}</a></dd>
    ${
      page.visited
        ? html`<dt class="screen">Something is wrong?</dt>
            <dd class="screen"><a href="/client/${token}/report">Report a problem or ask a question</a></dd>`
        : null
    }
  </dl>`;

const when = (page: ClientPage, at: string): string =>
  DateTime.fromISO(at, { zone: page.zone }).setLocale('en-US').toFormat('LLLL d, yyyy, h:mm a ZZZZ');

const METHODS: Record<string, string> = { link: 'on this page', on_site_device: "on the pair's device at the property", paper: 'on paper' };

const sealed = (page: ClientPage, signed: NonNullable<ClientPage['signed']>, token: string): Html =>
  html`<section class="note good" role="status">
    <p><strong>Signed by ${signed.name}</strong> on ${when(page, signed.happenedAt)}, ${METHODS[signed.method] ?? signed.method}.</p>
    ${signed.interpreter ? html`<p>Read with the interpreter ${signed.interpreter}.</p>` : null}
    ${signed.strokes ? drawing(signed.strokes, signed.name) : null}
    <p class="screen">
      ${
        page.sealed
          ? html`<a href="/client/${token}/agreement.pdf">The signed ${nameOf(page)} as a PDF</a>. Please keep a copy.`
          : html`When everybody has signed, the signed copy comes by mail. Until then you may print this page.`
      }
    </p>
    <p class="fingerprint">Fingerprint of the signed words (SHA-256): ${signed.sha256}</p>
  </section>`;

/** What the newest agreement says otherwise than what this client signed before. */
function changed(page: ClientPage): Html | null {
  if (!page.since || page.since.changes.length === 0) return null;
  return html`<section class="note" aria-labelledby="changed">
    <h2 id="changed">What changed since you signed on ${when(page, page.since.signedAt)}</h2>
    <ul class="changes">
      ${page.since.changes.map(
        ({ was, now }) =>
          html`<li>
            ${was ? html`<p><span class="tag">Before:</span> <del>${was}</del></p>` : null}${now ? html`<p><span class="tag">Now:</span> <ins>${now}</ins></p>` : null}
          </li>`,
      )}
    </ul>
  </section>`;
}

function answered(page: ClientPage): Html | null {
  if (page.wantsPaper)
    return html`<div class="note" role="status">
      <p>
        <strong>You asked for paper on ${when(page, page.answer!.happenedAt)}.</strong> The office knows.
        ${page.signed ? 'What you signed before stays valid; later papers come to you on paper.' : `You get the ${nameOf(page)} on paper; you can also still sign here.`}
      </p>
    </div>`;
  return page.answer?.kind === 'declined' && !page.signed
    ? html`<div class="note" role="status">
        <p>
          <strong>You declined to sign on ${when(page, page.answer.happenedAt)}.</strong> The office knows and will call you. You can still
          sign below.
        </p>
      </div>`
    : null;
}

/** The whole page. `typed` is given when something was refused. */
export function agreementPage(page: ClientPage, typed: Typed | null, token: string): string {
  return pageOf(
    `${page.release ? 'Settlement' : 'Agreement'} with ${page.firm}`,
    html`<p class="firm">${page.firm}</p>
      <h1>${page.signed ? `Your signed ${nameOf(page)}` : `Please read and sign your ${nameOf(page)}`}</h1>
      ${typed && (!page.signed || typed.wrong.reason !== undefined) ? notSigned(typed) : null}
      ${page.superseded ? html`<div class="note" role="note"><p>The ${nameOf(page)} that came with this link was replaced. This is the newest one${page.signed ? null : ', which needs your signature'}.</p></div>` : null}
      ${answered(page)} ${page.signed ? sealed(page, page.signed, token) : changed(page)}
      <p>For ${page.name}, job ${page.jobNumber}.</p>
      ${facts(page, token)}
      <h2>${page.title}</h2>
      ${page.reviewed ? null : html`<div class="note" role="note"><p>This text is an example that no attorney has reviewed.</p></div>`}
      <article class="paper">${paragraphs(page.body)}</article>
      ${page.release ? html`<p>You need not sign this, and may ask an attorney first.</p>` : page.signed ? null : html`<p>Signing before the visit is the policy of this firm.</p>`}
      ${page.signed ? null : signForm(page, typed, token)} ${page.wantsPaper ? null : otherwise(page, typed)}`,
    page.signed ? [] : ['/client-page/sign.js', '/client-page/keep.js'],
  );
}
