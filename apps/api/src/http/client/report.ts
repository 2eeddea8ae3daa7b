// The page on which a client reports a problem or asks a question, and sees what became of it. It works without its script; photos need it.
import { DateTime } from 'luxon';
import { NO_ADMISSION } from '@backsight/contract/callbacks';
import { CLIENT_MATTERS, DANGERS, SYSTEMS } from '@backsight/contract/callbacks/intake';
import type { OwnReport, ReportPage } from '@backsight/usecases/callbacks/reportPage';
import { html, pageOf, type Html } from './html.ts';

/** What was typed, and what was wrong with it. */
export type TypedReport = {
  id: string;
  matter: string;
  system: string;
  place: string;
  since: string;
  dangers: string[];
  hope: string;
  words: string;
  problem: string;
  fields: string[];
};

const when = (page: ReportPage, at: string): string =>
  DateTime.fromISO(at, { zone: page.zone }).setLocale('en-US').toFormat('cccc, LLLL d, h:mm a');

const state = (report: OwnReport): string =>
  report.sameAs === null ? report.state : `${report.state}, as part of number ${report.sameAs}`;

const own = (page: ReportPage): Html | null =>
  page.reports.length === 0
    ? null
    : html`<section aria-labelledby="own">
        <h2 id="own">What you told us</h2>
        <ul class="own">
          ${page.reports.map(
            (report) =>
              html`<li>
                <strong>Number ${report.number}</strong>${report.question ? ' (question)' : null}: <strong>${state(report)}</strong><br />
                received ${when(page, report.receivedAt)}
              </li>`,
          )}
        </ul>
      </section>`;

/** What happens next, right after sending. */
function sentNote(page: ReportPage, sent: number | null): Html | null {
  const report = page.reports.find(({ number }) => number === sent);
  if (!report) return null;
  const by = report.answerBy === null ? null : html` by ${when(page, report.answerBy)}`;
  return html`<section class="note good" role="status" id="sent" tabindex="-1">
    <p><strong>We have it. Its number is ${report.number}.</strong></p>
    <p>
      ${
        report.question
          ? html`What happens next: the office gets in touch with you${by}, and answers your question.`
          : html`What happens next: the office gets in touch with you${by}. We look into it, and tell you in writing what we decide.`
      }
      If we have your e-mail address, a mail with this number is on its way.
    </p>
  </section>`;
}

const emergency = (page: ReportPage): Html =>
  html`<div class="note" role="note">
    <p>${NO_ADMISSION}</p>
    <p>
      <strong>We are no emergency service. In danger, leave and call 911.</strong> Our office hours: ${page.hours}. Telephone
      <a href="tel:${page.firmPhone}">${page.firmPhone}</a>. <a href="/complaints">How we handle a complaint</a>.
    </p>
  </div>`;

/** The advice of a danger shows as soon as its box is ticked, without any script. */
const dangers = (page: ReportPage, typed: TypedReport | null): Html =>
  html`<fieldset>
    <legend>Is anybody in danger now? Tick what is true</legend>
    <div aria-live="assertive">
      ${page.advice.map(
        ({ danger, words }) =>
          html`<label class="check danger"
              ><input type="checkbox" name="dangers" value="${danger}" ${typed?.dangers.includes(danger) ? html` checked` : null} />
              <span>${DANGERS[danger]}</span></label
            >
            <div class="note bad advice">
              <p><strong>Do this now.</strong> ${words}</p>
              ${page.onCallPhone ? html`<p>Then call us, at any hour: <a href="tel:${page.onCallPhone}">${page.onCallPhone}</a></p>` : null}
            </div>`,
      )}
    </div>
  </fieldset>`;

const invalid = (typed: TypedReport | null, field: string): Html | null =>
  typed?.fields.includes(field) ? html` aria-invalid="true" aria-describedby="problem"` : null;

const matters = (typed: TypedReport | null): Html =>
  html`<fieldset>
    <legend>What is it about?</legend>
    ${Object.entries(CLIENT_MATTERS).map(
      ([value, words]) =>
        html`<label class="check"
          ><input type="radio" name="matter" value="${value}" ${(typed?.matter ?? 'missed') === value ? html` checked` : null} />
          <span>${words}</span></label
        >`,
    )}
  </fieldset>`;

const where = (page: ReportPage, typed: TypedReport | null): Html =>
  html`<label for="system">Which part of the house?</label>
    <select id="system" name="system">
      ${Object.entries(SYSTEMS).map(
        ([value, words]) =>
          html`<option value="${value}" ${(typed?.system ?? 'other') === value ? html` selected` : null}>${words}</option>`,
      )}
    </select>
    <label for="place">Where in the house?</label>
    <input type="text" id="place" name="place" value="${typed?.place ?? ''}" ${invalid(typed, 'place')} />
    <label for="since">Since when? (may stay empty)</label>
    <input type="date" id="since" name="since" max="${page.today}" value="${typed?.since ?? ''}" ${invalid(typed, 'since')} />`;

const form = (page: ReportPage, typed: TypedReport | null, id: string): Html =>
  html`<form method="post" id="report" data-job="${page.jobNumber}">
    <h2>Tell us</h2>
    <input type="hidden" name="id" value="${typed?.id ?? id}" />
    ${dangers(page, typed)} ${matters(typed)} ${where(page, typed)}
    <label for="words">What is it? Please tell us in your own words</label>
    <textarea id="words" name="words" rows="6" ${invalid(typed, 'words')}>${typed?.words ?? ''}</textarea>
    <label for="hope">What do you hope that we do? (may stay empty)</label>
    <textarea id="hope" name="hope" rows="2" ${invalid(typed, 'hope')}>${typed?.hope ?? ''}</textarea>
    <div id="photos" hidden>
      <label for="files">Photos (up to 12)</label>
      <input type="file" id="files" accept="image/*" multiple />
      <ul id="chosen" class="own"></ul>
    </div>
    <noscript><p>Photos cannot be sent from this page without its script. Please mail them to us with your number.</p></noscript>
    <div id="trouble" class="note bad" role="alert" tabindex="-1" hidden></div>
    <p id="doing" role="status"></p>
    <button type="submit">Send</button>
  </form>`;

/** The whole page. `typed` is given when something was refused, `sent` right after sending; `id` is that of the report to come. */
export function reportPage(page: ReportPage, at: { typed: TypedReport | null; sent: number | null; token: string; id: string }): string {
  const { typed, sent, token, id } = at;
  return pageOf(
    `Report a problem to ${page.firm}`,
    html`<p>${page.firm}</p>
      <h1>Report a problem or ask a question</h1>
      ${sentNote(page, sent)}
      ${
        typed
          ? html`<div class="note bad" role="alert" id="problem">
              <p><strong>Not sent yet. ${typed.problem}</strong></p>
            </div>`
          : null
      }
      <p>For ${page.name}, job ${page.jobNumber}: ${page.address}.</p>
      ${emergency(page)} ${own(page)}
      ${page.inspectedOn === null ? html`<p>We have not been at this property yet. Until then, please call us.</p>` : form(page, typed, id)}
      <p class="screen"><a href="/client/${token}">Your agreement</a></p>`,
    ['/client-page/report.js'],
  );
}
