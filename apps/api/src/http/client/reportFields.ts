// The fields of the client's report: their names, how much fits, and what is said beside a field that is not right. Page and script say the same.
import { CLIENT_MATTERS, DANGERS, SYSTEMS } from '@backsight/contract/callbacks/intake';
import type { ReportPage } from '@backsight/usecases/callbacks/reportPage';
import { html, type Html } from './html.ts';

/** What was typed, and what was wrong with it: sentences by field, `problem` where it is about none. */
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
  wrong: Partial<Record<ReportField, string>>;
};

/** `empty` where the field may not stay so; `most` letters. */
type Field = { label: string; empty?: string; most?: number; wrong: string };
const long = (most: number): string => `Please use fewer words here: at most ${most} letters.`;

export const REPORT_FIELDS = {
  matter: { label: 'What is it about?', empty: 'Please choose what it is about.', wrong: 'Please choose one of these.' },
  system: { label: 'Which part of the house?', wrong: 'Please choose one of these.' },
  place: {
    label: 'Where in the house?',
    empty: 'Please say where. One word may do, such as: garage.',
    most: 200,
    wrong: long(200),
  },
  since: { label: 'Since when?', wrong: 'Please choose a day that has been, or leave it empty.' },
  words: { label: 'What is it? Please tell us in your own words', empty: 'Please tell us what it is.', most: 4000, wrong: long(4000) },
  hope: { label: 'What do you hope that we do?', most: 400, wrong: long(400) },
} as const satisfies Record<string, Field>;
export type ReportField = keyof typeof REPORT_FIELDS;
export const isReportField = (name: string): name is ReportField => name in REPORT_FIELDS;

type Typed = TypedReport | null;

/** Stands under its field, empty while nothing is wrong; the script fills it too. */
const under = (typed: Typed, field: ReportField): Html => html`<p class="wrong" id="${field}-wrong">${typed?.wrong[field] ?? ''}</p>`;

const tied = (typed: Typed, field: ReportField, hint = false): Html =>
  html` id="${field}" name="${field}" aria-describedby="${hint ? `${field}-hint ` : ''}${field}-wrong"
  ${typed?.wrong[field] === undefined ? null : html` aria-invalid="true"`}`;

const label = (field: ReportField): Html => html`<label for="${field}">${REPORT_FIELDS[field].label}</label>`;
const hint = (field: ReportField, says: string): Html => html`<p class="hint" id="${field}-hint">${says}</p>`;
const MAY_BE_EMPTY = 'You may leave this empty.';

/** The advice of a danger shows as soon as its box is ticked, without any script. */
export const dangerFields = (page: ReportPage, typed: Typed): Html =>
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

export const matterFields = (typed: Typed): Html =>
  html`<fieldset id="matter" aria-describedby="matter-wrong">
    <legend>${REPORT_FIELDS.matter.label}</legend>
    ${Object.entries(CLIENT_MATTERS).map(
      ([value, words]) =>
        html`<label class="check"
          ><input type="radio" name="matter" value="${value}" ${(typed?.matter ?? 'missed') === value ? html` checked` : null} />
          <span>${words}</span></label
        >`,
    )}
    ${under(typed, 'matter')}
  </fieldset>`;

export const placeFields = (page: ReportPage, typed: Typed): Html =>
  html`${label('system')}
    <select ${tied(typed, 'system')}>
      ${Object.entries(SYSTEMS).map(
        ([value, words]) =>
          html`<option value="${value}" ${(typed?.system ?? 'other') === value ? html` selected` : null}>${words}</option>`,
      )}
    </select>
    ${under(typed, 'system')} ${label('place')}
    <input type="text" ${tied(typed, 'place')} value="${typed?.place ?? ''}" />
    ${under(typed, 'place')} ${label('since')} ${hint('since', MAY_BE_EMPTY)}
    <input type="date" ${tied(typed, 'since', true)} max="${page.today}" value="${typed?.since ?? ''}" />
    ${under(typed, 'since')}`;

export const wordFields = (typed: Typed): Html =>
  html`${label('words')}
    <textarea ${tied(typed, 'words')} rows="6">${typed?.words ?? ''}</textarea>
    ${under(typed, 'words')} ${label('hope')} ${hint('hope', MAY_BE_EMPTY)}
    <textarea ${tied(typed, 'hope', true)} rows="2">${typed?.hope ?? ''}</textarea>
    ${under(typed, 'hope')}`;
