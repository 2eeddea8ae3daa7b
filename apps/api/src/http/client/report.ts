// The page on which a client reports a problem or asks a question, and sees what became of it. It works without its script, photos and all.
import { DateTime } from 'luxon';
import { NO_ADMISSION } from '@backsight/contract/callbacks';
import { MOST_CLIENT_PHOTOS } from '@backsight/contract/callbacks/intake';
import type { OwnReport, ReportPage } from '@backsight/usecases/callbacks/reportPage';
import { html, pageOf, type Html } from './html.ts';
import { dangerFields, isReportField, matterFields, placeFields, REPORT_FIELDS, wordFields, type TypedReport } from './reportFields.ts';

/** Photos that did not come with a report that came, each with the reason. */
export type Untaken = readonly { name: string; reason: string }[];

/** Of a form that is sent at once, without the script: as much as a phone's pictures of a few rooms. */
export const MOST_FORM_MEGABYTES = 50;

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

/** What happens next, right after sending; and photos that could not be taken. */
function sentNote(page: ReportPage, { sent, untaken = [], mailLeaves }: At): Html | null {
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
        ${mailLeaves ? 'If we have your e-mail address, a mail with this number is on its way.' : 'Please note this number: no mail with it is sent to you.'}
      </p>
    </section>
    ${
      untaken.length === 0
        ? null
        : html`<div class="note bad" role="alert">
            <p><strong>Not every photo was taken.</strong> Please mail these to us with the number ${report.number}.</p>
            <ul>
              ${untaken.map(({ name, reason }) => html`<li>${name}: ${reason}</li>`)}
            </ul>
          </div>`
    }`;
}

/** Over everything: that it was not sent, and the way to each field that is not right. */
function notSent(typed: TypedReport | null): Html | null {
  if (!typed) return null;
  const fields = Object.keys(typed.wrong).filter(isReportField);
  return html`<div class="note bad" role="alert" id="problem">
    <p><strong>Not sent yet. ${typed.problem}</strong></p>
    ${
      fields.length === 0
        ? null
        : html`<p>Please look at this. What you typed is still here. Photos have to be chosen again.</p>
            <ul>
              ${fields.map((field) => html`<li><a href="#${field}">${REPORT_FIELDS[field].label}</a></li>`)}
            </ul>`
    }
  </div>`;
}

const emergency = (page: ReportPage): Html =>
  html`<div class="note" role="note">
    <p>
      <strong>We are no emergency service. In danger, leave and call 911.</strong> Our office hours: ${page.hours}. Telephone
      <a href="tel:${page.firmPhone}">${page.firmPhone}</a>. <a href="/complaints">How we handle a complaint</a>.
    </p>
    <p>${NO_ADMISSION}</p>
  </div>`;

const form = (page: ReportPage, typed: TypedReport | null, id: string): Html =>
  html`<form method="post" enctype="multipart/form-data" action="?" id="report" data-job="${page.jobNumber}" novalidate>
    <h2>Tell us</h2>
    <input type="hidden" name="id" value="${typed?.id ?? id}" />
    ${dangerFields(page, typed)} ${matterFields(typed)} ${placeFields(page, typed)} ${wordFields(typed)}
    <label for="files">Photos</label>
    <p class="hint" id="files-hint">
      Up to ${MOST_CLIENT_PHOTOS}.
      <noscript>Together at most ${MOST_FORM_MEGABYTES} MB.</noscript>
    </p>
    <input type="file" id="files" name="photos" accept="image/*" multiple aria-describedby="files-hint" />
    <ul id="chosen" class="own"></ul>
    <div id="trouble" class="note bad" role="alert" tabindex="-1" hidden></div>
    <p id="doing" role="status"></p>
    <button type="submit">Send</button>
  </form>`;

type At = {
  typed: TypedReport | null;
  sent: number | null;
  token: string;
  id: string;
  untaken?: Untaken;
  /** Whether a mail server is set. */ mailLeaves: boolean;
};

/** The whole page. `typed` is given when something was refused, `sent` right after sending; `id` is that of the report to come. */
export function reportPage(page: ReportPage, at: At): string {
  const { typed, token, id } = at;
  return pageOf(
    `Report a problem to ${page.firm}`,
    html`<p class="firm">${page.firm}</p>
      <h1>Report a problem or ask a question</h1>
      ${sentNote(page, at)} ${notSent(typed)}
      <p>For ${page.name}, job ${page.jobNumber}: ${page.address}.</p>
      ${emergency(page)} ${own(page)}
      ${page.inspectedOn === null ? html`<p>We have not been at this property yet. Until then, please call us.</p>` : form(page, typed, id)}
      <p class="screen"><a href="/client/${token}">Your agreement</a></p>`,
    ['/client-page/report.js'],
  );
}
