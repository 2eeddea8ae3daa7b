// Mails the receipt of a payment to whoever owes the invoice, where there is an address.
import { DateTime } from 'luxon';
import { METHODS, type PaymentCommand } from '@backsight/domain/fees/invoice';
import { formatUsd } from '@backsight/domain/shared/money';
import type { InvoiceRow } from '@backsight/store/fees';
import { findFirm } from '@backsight/store/firm';
import { sendLetter } from '../../mail/steps/letter.ts';
import type { Work } from '../../run.ts';

type Paid = PaymentCommand & { id: string; openCents: number };

export async function sendReceipt(work: Work, invoice: InvoiceRow, paid: Paid): Promise<void> {
  if (invoice.payerEmail === null) return;
  const firm = (await findFirm(work.tx))!;
  await sendLetter(work, {
    kind: 'receipt',
    messageKey: `receipt:${paid.id}`,
    to: { name: invoice.payerName, email: invoice.payerEmail },
    values: {
      address: invoice.address,
      invoice: String(invoice.number),
      amount: formatUsd(paid.cents),
      received: DateTime.fromISO(paid.receivedOn, { zone: 'utc' }).toFormat('LLLL d, yyyy'),
      method: METHODS[paid.method],
      balance: paid.openCents === 0 ? 'The invoice is paid in full.' : `${formatUsd(paid.openCents)} is still open.`,
      firm: firm.name,
      firm_phone: firm.phone,
    },
    about: { kind: 'invoice', id: invoice.id },
  });
}
