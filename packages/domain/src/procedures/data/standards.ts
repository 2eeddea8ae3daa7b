// Published standards of practice against which the book is held, with their sources, and which duties are met by other parts of the service.
import type { Standard } from '../coverage.ts';
import { FLORIDA_ROWS } from './florida.ts';
import { ILLINOIS_ROWS } from './illinois.ts';
import { MASSACHUSETTS_ROWS } from './massachusetts.ts';
import { NEW_YORK_ROWS } from './newYork.ts';
import { NORTH_CAROLINA_ROWS } from './northCarolina.ts';
import { TEXAS_ROWS } from './texas.ts';
import { WASHINGTON_ROWS } from './washington.ts';
import { WISCONSIN_ROWS } from './wisconsin.ts';
import { WISCONSIN_REPORT_ROWS } from './wisconsinReport.ts';

/** By the code of the state, as offices name it. A list is not proof that a rule is silent elsewhere: rows were collected, not copied. */
export const STANDARDS: readonly Standard[] = [
  {
    jurisdiction: 'US-WI',
    state: 'Wisconsin',
    name: 'Wisconsin Administrative Code, SPS 131.32 and 131.33',
    source: 'https://docs.legis.wisconsin.gov/code/admin_code/sps/professional_services/131/131/iv/32',
    rows: [...WISCONSIN_ROWS, ...WISCONSIN_REPORT_ROWS],
  },
  {
    jurisdiction: 'US-FL',
    state: 'Florida',
    name: 'Florida Administrative Code, chapter 61-30',
    source: 'https://www.lawserver.com/law/state/florida/regulations/florida_regulations_61-30-801',
    rows: FLORIDA_ROWS,
  },
  {
    jurisdiction: 'US-IL',
    state: 'Illinois',
    name: '68 Illinois Administrative Code 1410.200 and 1410.250',
    source: 'https://ilga.gov/ftp/JCAR/AdminCode/068/068014100C02500R.html',
    rows: ILLINOIS_ROWS,
  },
  {
    jurisdiction: 'US-MA',
    state: 'Massachusetts',
    name: '266 Code of Massachusetts Regulations 6.00',
    source: 'https://www.mass.gov/policy-advisory/board-policies-and-guidelines-home-inspectors',
    rows: MASSACHUSETTS_ROWS,
  },
  {
    jurisdiction: 'US-NY',
    state: 'New York',
    name: '19 NYCRR Subpart 197-5',
    source: 'https://regulations.justia.com/states/new-york/title-19/chapter-v/subchapter-j/part-197/subpart-197-5/section-197-5-4',
    rows: NEW_YORK_ROWS,
  },
  {
    jurisdiction: 'US-NC',
    state: 'North Carolina',
    name: '11 NCAC 08 .1100',
    source: 'https://regulations.justia.com/states/north-carolina/title-11/chapter-08/section-1100/section-08-1105',
    rows: NORTH_CAROLINA_ROWS,
  },
  {
    jurisdiction: 'US-TX',
    state: 'Texas',
    name: '22 Texas Administrative Code 535.227 to 535.233',
    source: 'https://texreg.sos.state.tx.us/public/readtac$ext.TacPage?ti=22&pt=23&ch=535&rl=229',
    rows: TEXAS_ROWS,
  },
  {
    jurisdiction: 'US-WA',
    state: 'Washington',
    name: 'Washington Administrative Code, chapters 308-408C and 16-228',
    source: 'https://app.leg.wa.gov/WAC/default.aspx?cite=308-408C-070',
    rows: WASHINGTON_ROWS,
  },
];

/** Duties about the report are no steps at the house: where they are met instead, by the row's id. */
export const MET_ELSEWHERE: Readonly<Record<string, string>> = {
  'SOP-181': 'The report: this table, printed, is the list and goes with it',
  'SOP-182': 'The report: what was inspected, system by system',
  'SOP-183': 'The report: its head and the register of reports',
  'SOP-184': 'The report: the answer and the note at every step inspected',
  'SOP-185': 'The report: its writer names the defects of the summary',
  'SOP-186': 'The report: its writer, from the notes of the site record',
  'SOP-187': 'The report: the summary comes first; the rest by its writer',
  'SOP-298': 'The report: its writer gives reason and recommendation with each defect',
  'SOP-353': 'The register of reports: others get it only with the written consent of the client',
  'SOP-354': 'The report: "Not inspected, and why"',
  'SOP-355': 'The report: the answer and the note at every step inspected',
};
