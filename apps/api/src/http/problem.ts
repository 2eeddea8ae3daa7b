// How every no leaves the service: RFC 9457 problem details from one catalogue, and silence about what went wrong inside.
import { randomBytes } from 'node:crypto';
import type { FastifyError, FastifyReply, FastifyRequest } from 'fastify';
import { hasZodFastifySchemaValidationErrors } from 'fastify-type-provider-zod';
import { refusals, type Problem, type RefusalCode } from '@backsight/contract/problem';
import { outageOf, type Outage } from '@backsight/usecases/run';

/** A refusal as the use cases return it. */
export type Refused = { ok: false; code: RefusalCode; about: Record<string, unknown>; field?: string };

const STATUS = { input: 422, state: 409, conflict: 409, permission: 403, missing: 404 } as const;
const OTHER_STATUS: Partial<Record<RefusalCode, number>> = {
  'sign-in-failed': 401,
  'code-needed': 401,
  'code-wrong': 401,
  'factor-unreadable': 401,
  'sign-in-paused': 429,
  'changed-meanwhile': 412,
};

const fill = (sentence: string, about: Record<string, unknown>): string =>
  sentence.replace(/\{(\w+)\}/g, (_, key: string) => {
    const value = about[key];
    return Array.isArray(value) ? value.join(', ') : String(value ?? '');
  });

/** The problem details of a refusal. */
export function problemOf(refused: Refused): Problem {
  const { blame, sentence } = refusals[refused.code];
  const status = OTHER_STATUS[refused.code] ?? STATUS[blame];
  return {
    type: `/problems/${refused.code}`,
    title: fill(sentence, refused.about),
    status,
    code: refused.code,
    about: refused.about,
    ...(refused.field ? { field: refused.field } : {}),
  };
}

const plainProblem = (status: number, code: string, title: string, extra: Partial<Problem> = {}): Problem => ({
  type: `/problems/${code}`,
  title,
  status,
  code,
  ...extra,
});

export function sendProblem(reply: FastifyReply, problem: Problem): FastifyReply {
  reply.request.refusal = problem.code;
  return reply.code(problem.status).type('application/problem+json').send(problem);
}

export const notSignedIn = (): Problem => plainProblem(401, 'not-signed-in', 'Please sign in.');
/** Signed in, but only as far as setting up the second factor. */
export const factorNeeded = (): Problem =>
  plainProblem(403, 'factor-needed', 'Set up your second factor first: here one signs in with a password and a code of the phone.');
export const notAllowed = (): Problem => problemOf({ ok: false, code: 'not-allowed', about: {} });
export const notFound = (): Problem => plainProblem(404, 'no-such-address', 'There is nothing at this address.');
export const badRequest = (code: string, title: string): Problem => plainProblem(400, code, title);

/** `field` is the dotted path of the text at fault; empty where the whole request is one. */
export const zeroCharacter = (field: string): Problem =>
  plainProblem(422, 'not-valid', `${field || 'request'}: There is a character in it that cannot be kept: type it anew.`, {
    errors: [{ field, message: 'There is a character in it that cannot be kept: type it anew.' }],
    ...(field ? { field } : {}),
  });

/** What is told when nothing is wrong with the request: `unsure` where it changes something and its end is not known. */
export const OUTAGES: Record<Outage, { status: 503 | 507; code: string; title: string; unsure: string }> = {
  database: {
    status: 503,
    code: 'database-away',
    title: 'The database does not answer just now. Please try again in a moment.',
    unsure:
      'The database does not answer just now, and whether this was saved is not known. Please send it again in a moment: it is done once.',
  },
  disk: {
    status: 507,
    code: 'disk-full',
    title: 'There is no room left on the disk of the service. Please tell whoever looks after it.',
    unsure:
      'There is no room left on the disk of the service. Nothing was saved; please tell whoever looks after it, and send it again once there is room.',
  },
};

const reads = ({ method }: FastifyRequest): boolean => method === 'GET' || method === 'HEAD';

/** The sentence of an outage for this request. */
export const sayOutage = (request: FastifyRequest, outage: Outage): string => OUTAGES[outage][reads(request) ? 'title' : 'unsure'];
/** When to ask again (RFC 9110, 10.2.3), in seconds. */
export const RETRY_AFTER = '5';

/** The one error handler. Whatever is not a clear mistake of the caller is logged under a reference number and told as that alone. */
export function handleError(error: FastifyError, request: FastifyRequest, reply: FastifyReply): FastifyReply {
  if (hasZodFastifySchemaValidationErrors(error)) {
    const errors = error.validation.map((v) => ({
      field: v.instancePath.slice(1).replaceAll('/', '.'),
      message: v.message ?? 'is not right',
    }));
    return sendProblem(
      reply,
      plainProblem(
        422,
        'not-valid',
        errors
          .map((e) => `${e.field || 'request'}: ${e.message}`)
          .join('; ')
          .slice(0, 500),
        { errors, ...(errors[0]?.field ? { field: errors[0].field } : {}) },
      ),
    );
  }
  const status = error.statusCode ?? 500;
  if (status >= 400 && status < 500)
    return sendProblem(
      reply,
      plainProblem(status, 'request-not-understood', CLIENT_TITLES[status] ?? 'The request could not be understood.'),
    );
  const reference = randomBytes(5).toString('hex');
  request.log.error({ err: error, reference }, 'error inside the service');
  const outage = outageOf(error);
  if (outage) {
    const { status: told, code } = OUTAGES[outage];
    return sendProblem(reply.header('retry-after', RETRY_AFTER), plainProblem(told, code, sayOutage(request, outage), { reference }));
  }
  return sendProblem(
    reply,
    plainProblem(500, 'inside', `Something went wrong inside the service. Nothing was saved. Reference ${reference}.`, { reference }),
  );
}

const CLIENT_TITLES: Record<number, string> = {
  413: 'The request is too large.',
  415: 'Only application/json is understood here.',
  429: 'Too many requests. Please wait a moment.',
  405: 'This address does not take that method.',
};
