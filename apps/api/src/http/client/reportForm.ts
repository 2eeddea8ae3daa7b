// The report of a client as a browser without script sends it: what was typed, and whether it fits what the API takes.
import { intakeRoutes } from '@backsight/contract/callbacks/intake';
import type { BodyOf } from '@backsight/contract/route';
import type { TypedReport } from './report.ts';

const textOf = (body: unknown, name: string): string => {
  const value = typeof body === 'object' && body !== null ? (body as Record<string, unknown>)[name] : undefined;
  return typeof value === 'string' ? value.replaceAll('\u0000', '') : '';
};

type Typed = Omit<TypedReport, 'problem' | 'fields'>;

export function typedReport(body: unknown): Typed {
  const boxes = typeof body === 'object' && body !== null ? (body as Record<string, unknown>).dangers : undefined;
  const dangers = [boxes].flat().filter((one): one is string => typeof one === 'string');
  const text = (name: string) => textOf(body, name);
  return {
    ...{ id: text('id'), matter: text('matter'), system: text('system'), place: text('place'), since: text('since') },
    ...{ hope: text('hope'), words: text('words'), dangers },
  };
}

const NAMES: Record<string, string> = { place: 'Where in the house', words: 'What it is', hope: 'What you hope', since: 'Since when' };

type Checked = { report: BodyOf<typeof intakeRoutes.report> & { dangers: readonly string[] } } | { problem: string; fields: string[] };

/** The body that the API takes, or what is wrong with it in words. */
export function checkedReport({ since, ...rest }: Typed, token: string): Checked {
  const parsed = intakeRoutes.report.body.safeParse({ ...rest, ...(since ? { since } : {}), token });
  if (parsed.success) return { report: parsed.data };
  const { issues } = parsed.error;
  return {
    fields: issues.map(({ path }) => String(path[0])),
    problem: issues.map(({ path, message }) => `${NAMES[String(path[0])] ?? String(path[0])}: ${message}`).join('. '),
  };
}
