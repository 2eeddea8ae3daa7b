// The one table of settings: name, type, default. Read once at the start; a wrong value stops it with one clear line.
import path from 'node:path';
import { z } from 'zod';

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
  BACKUP_PASSPHRASE: {
    secret: true,
    about: 'encrypts backups and opens encrypted ones, at least 12 characters; none: backups are plain .tar.gz files',
    schema: z.string().min(12).max(400).optional(),
  },
  OWNER_SECOND_FACTOR: {
    secret: false,
    about: '1: owners sign in with a password and a code of their phone; 0: those who want to',
    schema: z.enum(['0', '1']).default('1'),
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
  backupPassphrase?: string;
  metricsToken?: string;
  /** Whether owners must have a second factor. */
  ownersMust: boolean;
  demo: boolean;
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
    const given = env[name] === '' ? undefined : env[name];
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
  return {
    host,
    port,
    demo,
    ...(travel ? { travel } : {}),
    databaseUrl,
    smtpUrl: value('SMTP_URL'),
    backupPassphrase: value('BACKUP_PASSPHRASE'),
    metricsToken: value('METRICS_TOKEN'),
    ownersMust: value('OWNER_SECOND_FACTOR') === '1',
    publicUrl: (value('PUBLIC_URL') ?? `http://${host.includes(':') ? `[${host}]` : host}:${port}`).replace(/\/$/, ''),
    trustProxy: value('TRUST_PROXY') === '1',
    dataDir: path.resolve(root, value('DATA_DIR')),
    logLevel: value('LOG_LEVEL'),
  };
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
