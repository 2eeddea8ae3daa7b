// Whether a job still is what its papers say: fee, services and clients of the agreement, and the sum of the invoices.
import { formatUsd } from '../shared/money.ts';
import type { AgreementFacts, Placeholder } from './render.ts';

const WATCHED = { fee: 'the fee', services: 'what was ordered', client: 'the clients' } as const satisfies Partial<
  Record<Placeholder, string>
>;
type Watched = keyof typeof WATCHED;

const USED = /\{\{\s*([a-z_]+)\s*\}\}/g;

/** Whether a line is made of the pieces in their order, with anything between them. The first place that fits is always right, so each is looked for once. */
function madeOf(line: string, [first = '', ...more]: readonly string[]): boolean {
  const last = more.at(-1);
  if (last === undefined) return line === first;
  if (!line.startsWith(first)) return false;
  let at = first.length;
  for (const piece of more.slice(0, -1)) {
    const found = line.indexOf(piece, at);
    if (found === -1) return false;
    at = found + piece.length;
  }
  return line.endsWith(last) && at <= line.length - last.length;
}

/** Whether a line of the body says the current value wherever the template line has the placeholder; other placeholders may say anything. */
function says(body: string, template: string, name: Watched, value: string): boolean {
  const pieces = [''];
  for (const [at, part] of template.trim().split(USED).entries()) {
    if (at % 2 === 1 && part !== name) pieces.push('');
    else pieces.push(`${pieces.pop() ?? ''}${at % 2 === 0 ? part : value.trim()}`);
  }
  return body.split(/[\n\r\u2028\u2029]/).some((line) => madeOf(line, pieces));
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
