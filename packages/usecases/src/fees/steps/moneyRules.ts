// The firm's rules about money as decisions take them.
import type { MoneyRules } from '@backsight/domain/fees/billing';
import type { MoneyRulesRow } from '@backsight/store/fees/rules';

export const rulesOf = ({ severalPayers, depositPercent, closingDays, ...row }: MoneyRulesRow): MoneyRules => ({
  severalPayers,
  depositPercent,
  closingDays,
  tax: { name: row.taxName, thousandths: row.taxThousandths, services: row.taxServices },
});
