// The service's no, as an error that screens can show: problem details (RFC 9457) or a failure on the way.
import type { Problem } from '@backsight/contract/problem';

export type FieldProblem = { field: string; message: string };

export class ProblemError extends Error {
  readonly problem: Problem;

  constructor(problem: Problem) {
    super(problem.title);
    this.name = 'ProblemError';
    this.problem = problem;
  }

  /** Catalogue code, for example 'changed-meanwhile'; 'not-reached' when no answer came. */
  get code(): string {
    return this.problem.code;
  }

  get status(): number {
    return this.problem.status;
  }

  /** Every input at fault with what is wrong; empty when the problem is about no input. */
  get fields(): FieldProblem[] {
    const { errors, field, title } = this.problem;
    return errors ?? (field ? [{ field, message: title }] : []);
  }
}

/** The connection failed, so nobody knows whether the service acted: sending the same key again is safe. */
export const notReached = (): ProblemError =>
  new ProblemError({
    type: 'about:blank',
    status: 0,
    code: 'not-reached',
    title: 'The service could not be reached. What you entered is still here; try again in a moment.',
  });

/** What this screen sees to be wrong at one input before anything is sent. */
export const wrongHere = (field: string, title: string): ProblemError =>
  new ProblemError({ type: 'about:blank', status: 0, code: 'wrong-here', title, field, errors: [{ field, message: title }] });

/** As the service refuses whoever has not the role for something. */
export const forOthers = (): ProblemError =>
  new ProblemError({ type: 'about:blank', status: 403, code: 'not-allowed', title: 'This is for other roles.' });

/** Whether the service refused because of the role of whoever asked. */
export const isForOthers = (error: unknown): boolean => error instanceof ProblemError && error.code === 'not-allowed';

/** The problem in an answer that is not a success. */
export async function problemIn(response: Response): Promise<ProblemError> {
  const known = response.headers.get('content-type')?.startsWith('application/problem+json')
    ? ((await response.json().catch(() => null)) as Problem | null)
    : null;
  return new ProblemError(
    known ?? {
      type: 'about:blank',
      status: response.status,
      code: 'not-understood',
      title: `The service gave an answer that was not understood (${response.status}). Try again in a moment.`,
    },
  );
}

/** The problem of any error that a query or mutation threw; null for none. */
export const asProblem = (error: unknown): ProblemError | null =>
  error === null || error === undefined
    ? null
    : error instanceof ProblemError
      ? error
      : new ProblemError({
          type: 'about:blank',
          status: 0,
          code: 'screen-error',
          title: `This screen ran into an error: ${error instanceof Error ? error.message : 'unknown'}`,
        });
