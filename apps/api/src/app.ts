// The composition root: every plugin and every area of the API, by name, on one screen.
import fs from 'node:fs';
import path from 'node:path';
import cookie from '@fastify/cookie';
import formbody from '@fastify/formbody';
import rateLimit from '@fastify/rate-limit';
import fastifyStatic from '@fastify/static';
import swagger from '@fastify/swagger';
import swaggerUi from '@fastify/swagger-ui';
import Fastify, { type FastifyInstance } from 'fastify';
import { jsonSchemaTransform, jsonSchemaTransformObject, validatorCompiler } from 'fastify-type-provider-zod';
import { badRequest, handleError, notFound, sendProblem, zeroCharacter } from './http/problem.ts';
import { tooDeep } from './http/depth.ts';
import { replyCompiler } from './http/replies.ts';
import { safeHeaders, STYLES_INSIDE } from './http/headers.ts';
import { logging } from './http/logging.ts';
import { metrics } from './http/metrics.ts';
import { oneProxy } from './http/oneProxy.ts';
import { scanFiles } from './http/scanFiles.ts';
import { securityLog } from './http/securityLog.ts';
import { readSession } from './http/session.ts';
import type { Services } from './http/services.ts';
import { zeroCharacterIn } from './http/zeroCharacter.ts';
import { agreementsApi } from './routes/agreements.ts';
import { agreementTextsApi } from './routes/agreementTexts.ts';
import { auditApi } from './routes/audit.ts';
import { clientPages } from './routes/client.ts';
import { deskApi } from './routes/desk.ts';
import { feesApi, moneyPapersApi, termsApi } from './routes/fees.ts';
import { feeSetUpApi } from './routes/feeSetUp.ts';
import { bringInsApi } from './routes/bringIns.ts';
import { callbackIntakeApi } from './routes/callbackIntake.ts';
import { callbackListsApi } from './routes/callbackLists.ts';
import { callbacksApi } from './routes/callbacks.ts';
import { correctiveActionsApi } from './routes/correctiveActions.ts';
import { clocksApi } from './routes/clocks.ts';
import { callbacksAfterApi } from './routes/callbacksAfter.ts';
import { callbackRemediesApi } from './routes/callbackRemedies.ts';
import { firmApi } from './routes/firm.ts';
import { healthApi } from './routes/health.ts';
import { homeApi } from './routes/home.ts';
import { ledgerApi } from './routes/ledger.ts';
import { jobFilesApi } from './routes/jobFiles.ts';
import { jobsApi } from './routes/jobs.ts';
import { kitApi } from './routes/kit.ts';
import { frequencyApi } from './routes/frequency.ts';
import { liabilityStepsApi } from './routes/liabilitySteps.ts';
import { outlookApi } from './routes/outlook.ts';
import { liabilityFilesApi } from './routes/liabilityFiles.ts';
import { developmentApi } from './routes/development.ts';
import { ownerApi } from './routes/owner.ts';
import { mailApi } from './routes/mail.ts';
import { calendarFeeds, ownApi } from './routes/own.ts';
import { opinionsApi } from './routes/opinions.ts';
import { proceduresApi } from './routes/procedures.ts';
import { peopleApi } from './routes/people.ts';
import { personFileApi } from './routes/personFile.ts';
import { securityApi } from './routes/security.ts';
import { personalApi } from './routes/personal.ts';
import { plansApi } from './routes/plans.ts';
import { crewApi } from './routes/crew.ts';
import { scheduleApi } from './routes/schedule.ts';
import { siteworkApi } from './routes/sitework.ts';
import { verifyPages } from './routes/verify.ts';
import { afterPages } from './routes/afterPages.ts';

/** A photo of 25 MB by a poor signal takes minutes; whoever sends a byte now and then is cut off. */
const LONGEST_REQUEST_MS = 300_000;

/** Builds the server out of its parts; listening and closing are the caller's. `webDir` holds the built web app. */
export async function buildApp(services: Services, webDir?: string): Promise<FastifyInstance> {
  const { config } = services;
  const app = Fastify({
    ...logging(config, services.logTo),
    trustProxy: config.trustProxy ? oneProxy : false,
    bodyLimit: 2 * 1024 * 1024,
    routerOptions: { maxParamLength: 200 },
    requestTimeout: LONGEST_REQUEST_MS,
    frameworkErrors: handleError,
  });
  app.removeContentTypeParser('text/plain');
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(replyCompiler);
  app.setErrorHandler(handleError);
  app.setNotFoundHandler((request, reply) =>
    webDir && isPage(request.url, request.method) ? reply.type('text/html').sendFile('index.html') : sendProblem(reply, notFound()),
  );
  await guard(app, services);
  await describe(app, services.version);
  metrics(app, services);
  securityLog(app, services);
  scanFiles(app, services);
  app.decorateRequest('session', null);
  app.addHook('onRequest', async (request, reply) => {
    reply.header('x-request-id', request.id);
    if (request.url.startsWith('/api/')) request.session = await readSession(services, request);
  });
  app.addHook('preValidation', async (request, reply) => {
    if (tooDeep(request.body)) return sendProblem(reply, badRequest('too-deep', 'The request is nested too deep.'));
    const at = request.url.startsWith('/api/') ? zeroCharacterIn(request) : null;
    return at === null ? undefined : sendProblem(reply, zeroCharacter(at));
  });
  await app.register(async (api) => areas(api, services));
  await app.register(async (pages) => {
    await pages.register(formbody);
    clientPages(pages, services);
    verifyPages(pages, services);
    afterPages(pages, services);
  });
  await app.register(async (feeds) => calendarFeeds(feeds, services));
  if (webDir && fs.existsSync(webDir)) await serveWeb(app, webDir);
  return app;
}

/** Headers, cookies and the limit of requests. */
async function guard(app: FastifyInstance, { config }: Services): Promise<void> {
  await safeHeaders(app, config);
  await app.register(cookie);
  await app.register(rateLimit, {
    max: 1200,
    timeWindow: '1 minute',
    // Whoever hung up before his turn has no address any more.
    keyGenerator: (request) => (request.ip as string | undefined) ?? 'gone',
    allowList: (request) => !request.url.startsWith('/api/session') && request.ip === '127.0.0.1',
  });
}

/** OpenAPI 3.1 of every route, and the pages to read it. */
async function describe(app: FastifyInstance, version: string): Promise<void> {
  await app.register(swagger, {
    openapi: {
      openapi: '3.1.0',
      info: { title: 'Backsight', version, description: 'Back office of a residential inspection firm.' },
    },
    transform: jsonSchemaTransform,
    transformObject: jsonSchemaTransformObject,
  });
  await app.register(swaggerUi, { routePrefix: '/api/docs' });
}

function areas(api: FastifyInstance, services: Services): void {
  api.get('/api/openapi.json', { schema: { hide: true } }, () => api.swagger());
  healthApi(api, services);
  firmApi(api, services);
  bringInsApi(api, services);
  homeApi(api, services);
  peopleApi(api, services);
  proceduresApi(api, services);
  securityApi(api, services);
  personFileApi(api, services);
  personalApi(api, services);
  ownApi(api, services);
  kitApi(api, services);
  jobsApi(api, services);
  jobFilesApi(api, services);
  feeSetUpApi(api, services);
  scheduleApi(api, services);
  crewApi(api, services);
  plansApi(api, services);
  auditApi(api, services);
  siteworkApi(api, services);
  callbacksApi(api, services);
  correctiveActionsApi(api, services);
  clocksApi(api, services);
  callbacksAfterApi(api, services);
  callbackRemediesApi(api, services);
  callbackIntakeApi(api, services);
  opinionsApi(api, services);
  callbackListsApi(api, services);
  liabilityStepsApi(api, services);
  outlookApi(api, services);
  liabilityFilesApi(api, services);
  frequencyApi(api, services);
  developmentApi(api, services);
  ownerApi(api, services);
  agreementsApi(api, services);
  agreementTextsApi(api, services);
  feesApi(api, services);
  moneyPapersApi(api, services);
  termsApi(api, services);
  ledgerApi(api, services);
  deskApi(api, services);
  mailApi(api, services);
}

async function serveWeb(app: FastifyInstance, webDir: string): Promise<void> {
  await app.register(fastifyStatic, {
    root: webDir,
    wildcard: false,
    globIgnore: ['**/*.br', '**/*.gz'], // each file is a route; these are found beside theirs
    preCompressed: true,
    index: 'index.html',
    cacheControl: false,
    setHeaders: (reply, file) => {
      reply.header('cache-control', path.basename(path.dirname(file)) === 'assets' ? 'public, max-age=31536000, immutable' : 'no-cache');
      if (file.includes('.html')) reply.header('content-security-policy', STYLES_INSIDE);
    },
  });
}

const isPage = (url: string, method: string): boolean =>
  method === 'GET' && !url.startsWith('/api/') && !/\.\w+$/.test(url.split('?')[0] ?? '');
