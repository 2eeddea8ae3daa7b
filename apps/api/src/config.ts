// The one table of settings: name, type, default. Read once at the start; a wrong value stops it with one clear line.
import fs from 'node:fs';
import path from 'node:path';
import { z } from 'zod';
import type { FactorFor } from '@backsight/domain/people/secondFactor';

const url = (protocols: RegExp) => z.url({ protocol: protocols });

export const SETTINGS = {
  HOST: { secret: false, about: 'address to listen on', schema: z.string().default('127.0.0.1') },
  PORT: { secret: false, about: 'port to listen on', schema: z.coerce.number().int().min(1).max(65535).default(4800) },
  PUBLIC_URL: { secret: false, about: 'address that people type; links in mail begin with it', schema: url(/^https?$/).optional() },
  TRUST_PROXY: { secret: false, about: '1 behind a proxy that sets X-Forwarded-For', schema: z.enum(['0', '1']).default('0') },
  DATA_DIR: { secret: false, about: 'folder of the database, files and mail', schema: z.string().default('.data') },
  DATABASE_URL: { secret: true, about: 'PostgreSQL server of your own; none: the built-in one', schema: url(/^postgres(ql)?$/).optional() },
  SMTP_URL: { secret: true, about: 'mail server; none: mail is kept in the outbox and as .eml files', schema: url(/^smtps?$/).optional() },
  TRAVEL_SERVICE: {
    secret: false,
    about: 'osrm or valhalla: the road service that answers driving times; none: estimates',
    schema: z.enum(['osrm', 'valhalla']).optional(),
  },
  TRAVEL_URL: { secret: true, about: 'address of the road service', schema: url(/^https?$/).optional() },
  SCANNER_URL: {
    secret: false,
    about: 'scanner of files that people send, as tcp://HOST:PORT; none: they are only looked at by their kind',
    schema: url(/^tcp$/).optional(),
  },
  BACKUP_PASSPHRASE: {
    secret: true,
    about: 'encrypts backups and opens encrypted ones, at least 12 characters; none: backups are plain .tar.gz files',
    schema: z.string().min(12).max(400).optional(),
  },
  SECOND_FACTOR: {
    secret: false,
    about: 'everyone, owners or nobody: who must sign in with a password and a code of the phone',
    schema: z.enum(['everyone', 'owners', 'nobody']).default('everyone'),
  },
  IDLE_MINUTES: {
    secret: false,
    about: 'minutes without anything done after which one signs in anew, 5 to 720; four times as long for those who go on site',
    schema: z.coerce.number().int().min(5).max(720).default(60),
  },
  PLAIN_HTTP: {
    secret: false,
    about: '1 lets people reach this service, and it the database, mail and roads on other machines, without encryption',
    schema: z.enum(['0', '1']).default('0'),
  },
  DRAIN_SECONDS: {
    secret: false,
    about: 'seconds for which a service that was told to stop still answers, while its health is 503: more than your proxy takes to see it',
    schema: z.coerce.number().int().min(0).max(300).default(0),
  },
  METRICS_TOKEN: {
    secret: true,
    about: 'opens /metrics to whoever sends it as a bearer token, at least 16 characters; none: this machine alone',
    schema: z.string().min(16).max(200).optional(),
  },
  DEMO: {
    secret: false,
    about: '1 fills an empty database with the demo firm (default with the built-in database)',
    schema: z.enum(['0', '1']).optional(),
  },
  LOG_LEVEL: {
    secret: false,
    about: 'fatal, error, warn, info, debug or silent',
    schema: z.enum(['fatal', 'error', 'warn', 'info', 'debug', 'silent']).default('warn'),
  },
} as const;

export type Config = {
  host: string;
  port: number;
  publicUrl: string;
  trustProxy: boolean;
  dataDir: string;
  databaseUrl?: string;
  smtpUrl?: string;
  /** The road service, asked at this address only. */
  travel?: { service: 'osrm' | 'valhalla'; url: string; timeoutMs: number };
  /** Scanner of files, tcp://HOST:PORT. */
  scannerUrl?: string;
  backupPassphrase?: string;
  metricsToken?: string;
  /** Who must have a second factor. */
  secondFactor: FactorFor;
  /** Minutes without anything done after which one signs in anew at a desk. */
  idleMinutes: number;
  /** Whether what leaves this machine may go unencrypted. */
  plainHttp: boolean;
  demo: boolean;
  drainSeconds: number;
  logLevel: 'fatal' | 'error' | 'warn' | 'info' | 'debug' | 'silent';
};

export class WrongSetting extends Error {}

const LOOPBACK = new Set(['127.0.0.1', '::1', 'localhost']);

/**
 * Reads the settings. Relative folders are meant from `root`.
 * @throws WrongSetting with one line that names the setting and what it should be.
 */
export function readConfig(env: Record<string, string | undefined>, root: string): Config {
  const value = <K extends keyof typeof SETTINGS>(name: K): z.output<(typeof SETTINGS)[K]['schema']> => {
    const given = givenFor(name, env);
    const parsed = SETTINGS[name].schema.safeParse(given);
    if (!parsed.success) throw new WrongSetting(`${name}: ${shown(name, given)} is not right (${SETTINGS[name].about}).`);
    return parsed.data as z.output<(typeof SETTINGS)[K]['schema']>;
  };
  const host = value('HOST');
  const port = value('PORT');
  const databaseUrl = value('DATABASE_URL');
  const demo = (value('DEMO') ?? (databaseUrl ? '0' : '1')) === '1';
  if (demo && !LOOPBACK.has(host)) {
    throw new WrongSetting(
      `HOST: the demo firm has sign-ins that everybody knows, so it is served on this machine only. Set DEMO=0 for a real firm, or leave HOST at 127.0.0.1.`,
    );
  }
  const travel = travelOf(value('TRAVEL_SERVICE'), value('TRAVEL_URL'));
  const publicUrl = (value('PUBLIC_URL') ?? `http://${host.includes(':') ? `[${host}]` : host}:${port}`).replace(/\/$/, '');
  if (demo && !LOOPBACK.has(hostOf(publicUrl)))
    throw new WrongSetting('PUBLIC_URL: the demo firm has sign-ins that everybody knows, so nobody elsewhere may reach it. Set DEMO=0.');
  const plainHttp = value('PLAIN_HTTP') === '1';
  if (!plainHttp) mustBeEncrypted({ publicUrl, databaseUrl, travelUrl: travel?.url });
  return {
    host,
    port,
    demo,
    drainSeconds: value('DRAIN_SECONDS'),
    ...(travel ? { travel } : {}),
    databaseUrl,
    smtpUrl: value('SMTP_URL'),
    scannerUrl: value('SCANNER_URL'),
    backupPassphrase: value('BACKUP_PASSPHRASE'),
    metricsToken: value('METRICS_TOKEN'),
    secondFactor: value('SECOND_FACTOR'),
    idleMinutes: value('IDLE_MINUTES'),
    plainHttp,
    publicUrl,
    trustProxy: value('TRUST_PROXY') === '1',
    dataDir: path.resolve(root, value('DATA_DIR')),
    logLevel: value('LOG_LEVEL'),
  };
}

/** What is secret may stand in a file that the setting with _FILE behind its name gives, as keepers of secrets hand it over. */
function givenFor(name: keyof typeof SETTINGS, env: Record<string, string | undefined>): string | undefined {
  const file = SETTINGS[name].secret ? env[`${name}_FILE`] : undefined;
  if (!file) return env[name] || undefined;
  if (env[name]) throw new WrongSetting(`${name}: give it, or a file by ${name}_FILE, not both.`);
  try {
    return fs.readFileSync(file, 'utf8').trim() || undefined;
  } catch {
    throw new WrongSetting(`${name}_FILE: ${file} cannot be read.`);
  }
}

const hostOf = (url: string): string => new URL(url).hostname.replace(/^\[|\]$/g, '');

/** Whether an address is of this machine, or, by a name without a dot, of a neighbour in the same closed network of containers. */
export const isHere = (url: string): boolean => LOOPBACK.has(hostOf(url)) || !/[.:]/.test(hostOf(url));

/** @throws WrongSetting for the first address on another machine that is not reached by TLS, with its certificate checked. */
function mustBeEncrypted(of: { publicUrl: string; databaseUrl: string | undefined; travelUrl: string | undefined }): void {
  const or = 'or set PLAIN_HTTP=1 where nobody else is in that network.';
  if (of.publicUrl.startsWith('http:') && !LOOPBACK.has(hostOf(of.publicUrl)))
    throw new WrongSetting(`PUBLIC_URL: people would type passwords over http. Put a proxy with https before it, ${or}`);
  if (of.travelUrl?.startsWith('http:') && !isHere(of.travelUrl))
    throw new WrongSetting(`TRAVEL_URL: places of houses would go over http. Use https, ${or}`);
  const { databaseUrl } = of;
  if (databaseUrl !== undefined && !isHere(databaseUrl) && new URL(databaseUrl).searchParams.get('sslmode') !== 'verify-full')
    throw new WrongSetting(`DATABASE_URL: the database is on another machine. Add ?sslmode=verify-full to its address, ${or}`);
}

const TRAVEL_TIMEOUT_MS = 2000;

function travelOf(service: 'osrm' | 'valhalla' | undefined, address: string | undefined): Config['travel'] {
  if (service && address) return { service, url: address, timeoutMs: TRAVEL_TIMEOUT_MS };
  if (service) throw new WrongSetting(`TRAVEL_URL: the address of the ${service} service is missing.`);
  if (address) throw new WrongSetting('TRAVEL_SERVICE: say osrm or valhalla for the service at TRAVEL_URL.');
  return undefined;
}

const shown = (name: keyof typeof SETTINGS, given: string | undefined): string =>
  SETTINGS[name].secret ? 'the value given' : `"${given}"`;
