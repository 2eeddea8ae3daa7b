// When a mail that was not accepted is tried again, and when not.

/** Minutes to wait after the first, second ... failed try; the last one repeats. */
const WAITS = [1, 5, 25, 120] as const;
export const MOST_TRIES = 8;

/** The instant of the next try after `failures` failed ones, or null to give up. */
export function nextTry(failures: number, now: Date): Date | null {
  if (failures >= MOST_TRIES) return null;
  const minutes = WAITS[Math.min(failures, WAITS.length) - 1] ?? WAITS[0];
  return new Date(now.getTime() + minutes * 60_000);
}

/** While no mail server is reached at all, every letter waits as it is, none is given up, and all leave soon after it is back. */
export const UNREACHED_MINUTES = 2;

/** What a mail server answered, and to which command. */
export type ServerAnswer = {
  responseCode?: number | undefined;
  command?: string | undefined;
  code?: string | undefined;
  originalCode?: string | undefined;
};

/** There is nobody who could have taken it; on a connection that broke later somebody may have. */
const UNREACHED = new Set(['ECONNREFUSED', 'EHOSTUNREACH', 'ENETUNREACH', 'EHOSTDOWN', 'EDNS', 'CONNECT_TIMEOUT']);

/**
 * 'unreached': there was no server that could have taken it; 'address': the recipient is refused for good; 'message': this mail is; 'later': anything that may pass. A 5xx reply is permanent, a 4xx
 * one is not (RFC 5321, 4.2.1). A 5xx before the recipient (sign-in, sender, greeting) is about our own settings, so it may pass.
 */
export function verdictOn({
  responseCode,
  command,
  code = '',
  originalCode = '',
}: ServerAnswer): 'unreached' | 'address' | 'message' | 'later' {
  if (responseCode === undefined && (UNREACHED.has(code) || UNREACHED.has(originalCode))) return 'unreached';
  if (responseCode === undefined || responseCode < 500 || responseCode > 599) return 'later';
  return command === 'RCPT TO' ? 'address' : command === 'DATA' ? 'message' : 'later';
}

/** Takes the secret out of private links: what was sent needs no copy of a key. */
export const withoutKeys = (body: string): string => body.replace(/(\/(?:client\/(?:[a-z]+\/)?|new-password\/))[\w-]{20,}/g, '$1...');

/** Whether a mail holds a private link, or held one before its secret was taken out. */
export const holdsKey = (body: string): boolean => /\/(client|new-password)\/\.\.\./.test(withoutKeys(body));

/** Whether a mail lets its reader choose a password: nobody else reads that link, not even where no server takes mail. */
export const opensAccount = (body: string): boolean => body.includes('/new-password/');

/** A header is one line: control characters become blanks, so that no text begins another header (RFC 5322, 2.2). */
export const headerText = (text: string): string =>
  // oxlint-disable-next-line no-control-regex -- control characters are what is taken out
  text.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]+/g, ' ').trim();
