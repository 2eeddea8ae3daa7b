// Figures of the running service in the Prometheus text format (version 0.0.4), for this machine or whoever has the token.
import { timingSafeEqual } from 'node:crypto';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import { collectDefaultMetrics, Gauge, Histogram, Registry } from 'prom-client';
import { waitingNow } from '@backsight/usecases/firm/readFirm';
import { notFound, sendProblem } from './problem.ts';
import type { Services } from './services.ts';

const BUCKETS = [0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5, 10];
const LOOPBACK = new Set(['127.0.0.1', '::1', '::ffff:127.0.0.1']);

/** Times every request by its route, and answers /metrics. To anybody else there is nothing at that address. */
export function metrics(app: FastifyInstance, services: Services): void {
  const registry = new Registry();
  const registers = [registry];
  const seconds = new Histogram({
    name: 'http_request_duration_seconds',
    help: 'Time to answer a request',
    labelNames: ['method', 'route', 'status'],
    buckets: BUCKETS,
    registers,
  });
  app.addHook('onResponse', async (request, reply) => {
    const route = request.routeOptions.url ?? 'none';
    seconds.observe({ method: request.method, route, status: reply.statusCode }, reply.elapsedTime / 1000);
  });
  ofDatabase(registers, services);
  ofJobs(registers, services);
  app.addHook('onListen', async () => collectDefaultMetrics({ register: registry }));
  app.get('/metrics', { schema: { hide: true } }, async (request, reply) => {
    if (!mayRead(request, services.config.metricsToken)) return sendProblem(reply, notFound());
    return reply.type(registry.contentType).send(await registry.metrics());
  });
}

function mayRead(request: FastifyRequest, token: string | undefined): boolean {
  if (token === undefined) return LOOPBACK.has(request.ip) && request.headers['x-forwarded-for'] === undefined;
  const [given, wanted] = [Buffer.from(request.headers.authorization ?? ''), Buffer.from(`Bearer ${token}`)];
  return given.length === wanted.length && timingSafeEqual(given, wanted);
}

function ofDatabase(registers: Registry[], { database }: Services): void {
  const connections = new Gauge({
    name: 'backsight_database_connections',
    help: 'Connections of the pool; waiting: requests that wait for one',
    labelNames: ['state'],
    registers,
    collect: () => {
      for (const [state, many] of Object.entries(database.connections())) connections.set({ state }, many);
    },
  });
  const waiting = new Gauge({
    name: 'backsight_waiting',
    help: 'Things that wait for the service: mails to be sent, mails given up, audit rows to be sealed',
    labelNames: ['thing'],
    registers,
    collect: async () => {
      for (const [thing, many] of Object.entries(await waitingNow(database.read))) waiting.set({ thing }, many);
    },
  });
}

function ofJobs(registers: Registry[], { lastRuns }: Services): void {
  const runs = new Gauge({
    name: 'backsight_job_last_success_timestamp_seconds',
    help: 'When each job of the clock last ended well, in this process',
    labelNames: ['job'],
    registers,
    collect: () => {
      for (const [job, at] of lastRuns ?? []) runs.set({ job }, at.getTime() / 1000);
    },
  });
}
