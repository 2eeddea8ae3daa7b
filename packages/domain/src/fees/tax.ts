// Sales tax: off unless the firm sets a rate. Worked out once per invoice, then shared over its taxable lines.
import { allocate, percentOf } from '../shared/money.ts';

/** `thousandths` of a percent: 5500 is 5.5 %. `services` are the keys of what is taxed; '' stands for the inspection itself. */
export type TaxRule = { name: string; thousandths: number; services: readonly string[] };

export const NO_TAX: TaxRule = { name: 'Sales tax', thousandths: 0, services: [] };

/** '5.5%' of 5500. */
export const rateWords = (thousandths: number): string => `${thousandths / 1000}%`;

export type Taxed = {
  taxCents: number;
  /** The part of the tax on each fee line, in their order; they sum to the tax. */
  byLine: number[];
  label: string;
};

/**
 * Tax on `due` cents of a fee. Discounts lower the charges in proportion (largest remainder); the rate is taken of what is taxable together and
 * rounded half up to a cent once; that is shared over the taxable lines by largest remainder, so the parts always sum to the whole.
 */
export function taxOf(lines: readonly { cents: number; service?: string | null }[], due: number, rule: TaxRule): Taxed {
  const none = { taxCents: 0, byLine: lines.map(() => 0), label: '' };
  const charges = lines.map(({ cents }) => Math.max(0, cents));
  if (rule.thousandths === 0 || due <= 0 || charges.every((cents) => cents === 0)) return none;
  const shares = allocate(due, charges);
  const taxable = shares.map((share, at) => (rule.services.includes(lines[at]!.service ?? '') ? share : 0));
  const base = taxable.reduce((total, cents) => total + cents, 0);
  const taxCents = percentOf(base, rule.thousandths / 1000, 'halfUp');
  if (taxCents === 0) return none;
  return { taxCents, byLine: allocate(taxCents, taxable), label: `${rule.name} ${rateWords(rule.thousandths)}` };
}

/** The part of a credit note that is tax: what the invoice's tax is of its total, rounded half up, never more than is left of it. */
export const taxWithin = (
  cents: number,
  invoice: { totalCents: number; taxCents: number; creditedCents: number; creditedTaxCents: number },
): number => {
  if (invoice.taxCents === 0) return 0;
  const left = invoice.taxCents - invoice.creditedTaxCents;
  if (cents === invoice.totalCents - invoice.creditedCents) return left;
  const [part = 0] = allocate(cents, [invoice.taxCents, invoice.totalCents - invoice.taxCents]);
  return Math.min(left, part);
};
