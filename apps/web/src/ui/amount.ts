// Dollars as typed and cents as sent.

/** '1,250.50' -> 125050; NaN for what is no amount, which the service refuses at its field. */
export const centsOf = (typed: string): number => {
  const match = /^\$?\s*(\d{1,3}(?:,?\d{3})*)(?:\.(\d{1,2}))?$/.exec(typed.trim());
  return match ? Number(match[1]!.replaceAll(',', '')) * 100 + Number((match[2] ?? '').padEnd(2, '0')) : Number.NaN;
};

/** What was typed where a number is counted with; NaN for nothing, which the service refuses at its field. */
export const numberTyped = (typed: number | string | undefined): number =>
  typed === '' || typed === undefined ? Number.NaN : Number(typed);

/** 125050 -> '1250.50', as an input takes it. */
export const dollarsOf = (cents: number): string => (cents / 100).toFixed(2);
