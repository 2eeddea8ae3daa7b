// Lists of the home about money: invoices that are due, and payments that came back.
import { CAME_BACK } from './cameBack.ts';
import { of, pick, row, type Statement } from './sql.ts';

export const MONEY_LISTS = {
  unpaidDue: {
    needs: ['today'],
    sql: pick(
      of(
        'invoice',
        `${row('i.id::text', 'i.id', `c.name`, `'Invoice ' || i.number || ', ' || to_char(open.cents / 100.0, 'FM$999,999,990.00') || ' open'`, 'NULL::timestamptz', 'i.due_on::text')} FROM invoice i JOIN party c ON c.id = i.payer_id
      CROSS JOIN LATERAL (SELECT coalesce(sum(m.cents), 0)::int AS cents FROM invoice_money m WHERE m.invoice_id = i.id) open WHERE i.state = 'issued' AND i.due_on <= $1::date AND open.cents > 0`,
      ),
      'day',
    ),
  },
  handedOverUnpaid: {
    needs: [],
    sql: pick(
      of(
        'invoice',
        `${row('i.id::text', 'i.id', `c.name`, `'Invoice ' || i.number || ': a payment came back after the hand-over, ' || to_char(open.cents / 100.0, 'FM$999,999,990.00') || ' open'`, 'min(d.delivered_at)')} FROM invoice i JOIN party c ON c.id = i.payer_id
      CROSS JOIN LATERAL (SELECT coalesce(sum(m.cents), 0)::int AS cents FROM invoice_money m WHERE m.invoice_id = i.id) open JOIN report r ON r.job_id = i.job_id JOIN report_delivery d ON d.report_id = r.id
      WHERE i.state = 'issued' AND open.cents > 0 AND EXISTS (SELECT FROM payment y JOIN ledger_entry b ON b.reverses_id = y.entry_id AND ${CAME_BACK} WHERE y.invoice_id = i.id AND d.delivered_at < b.recorded_at) GROUP BY i.id, c.name, open.cents`,
      ),
      'at',
    ),
  },
  paymentsBack: {
    needs: [],
    sql: pick(
      of(
        'job',
        `${row('y.id::text', 'i.job_id', `c.name`, `substr(b.memo, strpos(b.memo, ': ') + 2) || ', invoice ' || i.number || ', ' || to_char(open.cents / 100.0, 'FM$999,999,990.00') || ' open' || CASE WHEN EXISTS (SELECT FROM report r JOIN report_delivery d ON d.report_id = r.id WHERE r.job_id = i.job_id AND d.delivered_at < b.recorded_at) THEN '; the report was handed over before' ELSE '' END`, 'b.recorded_at')} FROM invoice i JOIN party c ON c.id = i.payer_id JOIN payment y ON y.invoice_id = i.id JOIN ledger_entry b ON b.reverses_id = y.entry_id AND ${CAME_BACK}
      CROSS JOIN LATERAL (SELECT coalesce(sum(m.cents), 0)::int AS cents FROM invoice_money m WHERE m.invoice_id = i.id) open WHERE i.state = 'issued' AND open.cents > 0`,
      ),
      'at',
    ),
  },
} as const satisfies Record<string, Statement>;
