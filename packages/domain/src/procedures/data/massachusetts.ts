// What Massachusetts asks of a home inspector, row by row. Each requirement is our summary, not the rule's words; "from memory" rows must be re-read
// before anybody relies on them, and the list is not proof that the rule is silent elsewhere.
import type { StandardRow } from '../coverage.ts';

export const MASSACHUSETTS_ROWS: readonly StandardRow[] = [
  {
    id: 'SOP-353',
    citation: '266 CMR 6.01',
    section: 'Access, purpose, scope',
    system: 'report_content',
    duty: 'report',
    status: 'found',
    requirement: 'Written report goes only to the client and is confidential',
    source: 'secondary copy of 266 CMR 6.00',
  },
  {
    id: 'SOP-354',
    citation: '266 CMR 6.01',
    section: 'Access, purpose, scope',
    system: 'report_content',
    duty: 'report',
    status: 'found',
    requirement: 'Say which listed systems were not inspected and why',
    source: 'secondary copy of 266 CMR 6.00',
  },
  {
    id: 'SOP-355',
    citation: '266 CMR 6.01',
    section: 'Access, purpose, scope',
    system: 'report_content',
    duty: 'report',
    status: 'found',
    requirement: 'State condition of items inspected incl. those in need of repair or further investigation',
    source: 'secondary copy of 266 CMR 6.00',
  },
  {
    id: 'SOP-357',
    citation: '266 CMR 6.01',
    section: 'Access, purpose, scope',
    system: 'pre_inspection',
    duty: 'report',
    status: 'found',
    requirement:
      'Tell the client what to ask the seller: past water entry, public or private sewage, radon test, insect inspection, earlier inspection report, underground tank (older text)',
    source: 'secondary copy of 266 CMR 6.00',
  },
  {
    id: 'SOP-358',
    citation: '266 CMR 6.08',
    section: 'Energy audit document',
    system: 'report_content',
    duty: 'report',
    status: 'found',
    requirement: 'Give clients buying 1-4 unit dwellings or condos a document on home energy audits (since 24 Jul 2009)',
    source: 'https://www.mass.gov/policy-advisory/board-policies-and-guidelines-home-inspectors',
  },
];
