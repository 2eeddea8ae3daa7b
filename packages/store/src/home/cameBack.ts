// Payments that the bank or the card company took back, as a piece of a statement.
import { REVERSAL_REASONS } from '@backsight/domain/fees/invoice';

/** Whether the ledger entry `b` took a payment back because they did: its memo ends with how. */
export const CAME_BACK = `b.reverses_id IS NOT NULL AND (${[REVERSAL_REASONS.returned_check, REVERSAL_REASONS.card_dispute].map((why) => `b.memo LIKE '%: ${why}'`).join(' OR ')})`;
