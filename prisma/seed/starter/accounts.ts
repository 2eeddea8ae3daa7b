// Chart of accounts: fees and callback money in one double-entry ledger.
export const ACCOUNTS = [
  { code: 'bank', name: 'Bank and cash', kind: 'asset' },
  { code: 'receivable', name: 'Owed by clients', kind: 'asset' },
  { code: 'deposits-held', name: 'Deposits held until the visit', kind: 'liability' },
  { code: 'callback-reserve', name: 'Set aside for callbacks', kind: 'liability' },
  { code: 'sales-tax', name: 'Sales tax owed to the state', kind: 'liability' },
  { code: 'owner-equity', name: "Owner's equity", kind: 'equity' },
  { code: 'fee-income', name: 'Fees', kind: 'income' },
  { code: 'fee-refunds', name: 'Fees given back', kind: 'expense' },
  { code: 'callback-cost', name: 'Cost of callbacks', kind: 'expense' },
  { code: 'recoveries', name: 'Recovered from insurers and others', kind: 'income' },
  { code: 'returned-fees', name: 'Charges for returned payments', kind: 'income' },
  { code: 'other-expense', name: 'Other expenses', kind: 'expense' },
  { code: 'write-offs', name: 'Written off', kind: 'expense' },
] as const;
