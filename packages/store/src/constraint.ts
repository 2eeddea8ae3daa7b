// Reads what the database refused and why out of Prisma's and pg's errors.

type Raised = { code?: string; meta?: { driverAdapterError?: { cause?: Cause } }; cause?: Cause; constraint?: string; message?: string };
type Cause = { originalCode?: string; originalMessage?: string; constraint?: { index?: string; fields?: string[] }; kind?: string };

/** What the driver says stands behind an error of Prisma. */
export const causeOf = (error: unknown): Cause => {
  const e = error as Raised;
  return e?.meta?.driverAdapterError?.cause ?? e?.cause ?? {};
};

/** The server's five-letter code, when the error came from the server. */
export function sqlState(error: unknown): string | undefined {
  const code = causeOf(error).originalCode ?? (error as Raised)?.code;
  return code && /^[0-9A-Z]{5}$/.test(code) && !/^P\d{4}$/.test(code) ? code : undefined;
}

/** Worth another try: the server chose this transaction to lose a race, or every connection was busy and it never began. */
export const isTransient = (error: unknown): boolean => {
  const code = sqlState(error);
  return code === '40001' || code === '40P01' || (error as Raised)?.code === 'P2034' || neverBegan(error as Raised);
};

const neverBegan = (error: Raised | undefined): boolean =>
  (error?.code === 'P2028' && /unable to start a transaction/i.test(error.message ?? '')) ||
  /timeout exceeded when trying to connect/i.test(error?.message ?? '');

/** The name of the constraint or rule that said no, or undefined when it was none. */
export function brokenRule(error: unknown): string | undefined {
  const cause = causeOf(error);
  const text = `${cause.originalMessage ?? ''} ${(error as Raised)?.message ?? ''}`;
  const named = /(?:constraint|rule) "(\w+)"/.exec(text)?.[1] ?? cause.constraint?.index;
  if (named) return named;
  const state = sqlState(error);
  return state && /^23/.test(state) ? `sql_${state}` : undefined;
}
