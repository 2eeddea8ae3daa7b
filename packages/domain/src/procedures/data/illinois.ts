// What Illinois asks of a home inspector, row by row. Each requirement is our summary, not the rule's words; "from memory" rows must be re-read
// before anybody relies on them, and the list is not proof that the rule is silent elsewhere.
import type { StandardRow } from '../coverage.ts';

export const ILLINOIS_ROWS: readonly StandardRow[] = [
  {
    id: 'SOP-360',
    citation: '68 Ill. Adm. Code 1410.200',
    section: 'Standards of practice',
    system: 'foundation_structure',
    duty: 'inspect',
    status: 'from memory',
    requirement:
      'Structure, exterior, roof, plumbing, electrical, heating, cooling, interior, insulation/ventilation, fireplaces are the inspected systems',
    source: '68 Ill. Adm. Code 1410.200, law mirror, through Dec 2024',
  },
  {
    id: 'SOP-361',
    citation: '68 Ill. Adm. Code 1410.250',
    section: 'Report signature',
    system: 'report_content',
    duty: 'report',
    status: 'found',
    requirement:
      'Signed report carries name, license number, license expiry, signature, and names and license numbers of every inspector who contributed',
    source: 'https://ilga.gov/ftp/JCAR/AdminCode/068/068014100C02500R.html',
  },
];
