// The report of a client as a browser without script sends it: what was typed, which photos came along, and whether it fits what the API takes.
import { createHash } from 'node:crypto';
import { intakeRoutes } from '@backsight/contract/callbacks/intake';
import type { BodyOf } from '@backsight/contract/route';
import { isReportField, REPORT_FIELDS, type ReportField, type TypedReport } from './reportFields.ts';

const textOf = (body: unknown, name: string): string => {
  const value = typeof body === 'object' && body !== null ? (body as Record<string, unknown>)[name] : undefined;
  return typeof value === 'string' ? value.replaceAll('\u0000', '') : '';
};

/** The body of a form with files, as an object: a name that comes more than once is a list. @throws TypeError when it is none */
export async function readForm(bytes: Buffer, contentType: string): Promise<Record<string, unknown>> {
  const form = await new Response(new Uint8Array(bytes), { headers: { 'content-type': contentType } }).formData();
  return Object.fromEntries([...new Set(form.keys())].map((name) => [name, name === 'id' ? form.get(name) : listOrOne(form.getAll(name))]));
}
const listOrOne = (values: unknown[]): unknown => (values.length === 1 ? values[0] : values);

type Typed = Omit<TypedReport, 'problem' | 'wrong'>;

export function typedReport(body: unknown): Typed {
  const boxes = typeof body === 'object' && body !== null ? (body as Record<string, unknown>).dangers : undefined;
  const dangers = [boxes].flat().filter((one): one is string => typeof one === 'string');
  const text = (name: string) => textOf(body, name);
  return {
    ...{ id: text('id'), matter: text('matter'), system: text('system'), place: text('place'), since: text('since') },
    ...{ hope: text('hope'), words: text('words'), dangers },
  };
}

export type FormPhoto = { id: string; name: string; original: string; jpeg: null };

/** The photos of a form. Their ids follow from report and file: sent twice they are the same. */
export async function photosIn(body: unknown, reportId: string): Promise<FormPhoto[]> {
  const given = typeof body === 'object' && body !== null ? (body as Record<string, unknown>).photos : undefined;
  const files = [given].flat().filter((one): one is File => one instanceof File && one.size > 0);
  const photos = files.map(async (file) => {
    const bytes = Buffer.from(await file.arrayBuffer());
    const hex = createHash('sha256').update(reportId).update(bytes).digest('hex');
    const id = [hex.slice(0, 8), hex.slice(8, 12), `5${hex.slice(13, 16)}`, `8${hex.slice(17, 20)}`, hex.slice(20, 32)].join('-');
    return { id, name: file.name.slice(-200) || 'photo', original: bytes.toString('base64'), jpeg: null };
  });
  return Promise.all(photos);
}

type Checked = { report: BodyOf<typeof intakeRoutes.report> & { dangers: readonly string[] } } | Pick<TypedReport, 'problem' | 'wrong'>;

/** The body that the API takes, or what is wrong with it in words. */
export function checkedReport({ since, ...rest }: Typed, token: string): Checked {
  const parsed = intakeRoutes.report.body.safeParse({ ...rest, ...(since ? { since } : {}), token });
  if (parsed.success) return { report: parsed.data };
  const fields = [...new Set(parsed.error.issues.map(({ path }) => String(path[0])))];
  const wrong = Object.fromEntries(fields.filter(isReportField).map((field) => [field, sentenceOf(field, rest)]));
  return { wrong, problem: fields.every(isReportField) ? '' : 'Please open this page anew.' };
}

const sentenceOf = (field: ReportField, typed: Omit<Typed, 'since'>): string => {
  const { wrong, ...of } = REPORT_FIELDS[field];
  return field !== 'since' && 'empty' in of && typed[field].trim() === '' ? of.empty : wrong;
};
