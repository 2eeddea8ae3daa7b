// Whether a job still is what its papers say: fee, services and clients of the agreement, and the sum of the invoices.
import { formatUsd } from '../shared/money.ts';
import type { AgreementFacts, Placeholder } from './render.ts';

const WATCHED = { fee: 'the fee', services: 'what was ordered', client: 'the clients' } as const satisfies Partial<
  Record<Placeholder, string>
>;
type Watched = keyof typeof WATCHED;

const USED = /\{\{\s*([a-z_]+)\s*\}\}/g;
const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** Whether a line of the body says the current value wherever the template line has the placeholder; other placeholders may say anything. */
function says(body: string, template: string, name: Watched, value: string): boolean {
  const parts = template.trim().split(USED);
  const pattern = parts.map((part, at) => (at % 2 === 0 ? escaped(part) : part === name ? escaped(value.trim()) : '.*')).join('');
  return new RegExp(`^${pattern}$`, 'm').test(body);
}

const HEADING = /^## \d+\. .+$/gm;
const sections = (text: string): string => (text.match(HEADING) ?? []).join('\n');

/** What an agreement says otherwise than the job is now. Day and time are left out: a moved visit is told by mail. */
export function agreementDiffers(body: string, template: string, facts: Pick<AgreementFacts, Watched>): string[] {
  const lines = template.split('\n');
  const names = (Object.keys(WATCHED) as Watched[]).filter((name) =>
    lines.some(
      (line) => line.includes('{{') && new RegExp(`\\{\\{\\s*${name}\\s*\\}\\}`).test(line) && !says(body, line, name, facts[name]),
    ),
  );
  const what = [...names.map((name) => WATCHED[name]), ...(sections(body) === sections(template) ? [] : ['which clauses apply'])];
  return what.length === 0 ? [] : [`The agreement differs from the job in ${what.join(' and ')}.`];
}

/** Whether the invoices that stand ask for the fee; both in cents. */
export const invoicesDiffer = (feeCents: number, invoicedCents: number): string[] =>
  feeCents === invoicedCents ? [] : [`The fee is ${formatUsd(feeCents)}, and ${formatUsd(invoicedCents)} is invoiced.`];
