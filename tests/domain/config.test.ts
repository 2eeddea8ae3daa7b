// The settings: defaults, and one clear line for each wrong value.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { readConfig } from '../../apps/api/src/config.ts';

describe('settings', () => {
  it("have defaults for a machine of one's own", () => {
    expect(readConfig({}, '/srv/app')).toMatchObject({
      host: '127.0.0.1',
      port: 4800,
      publicUrl: 'http://127.0.0.1:4800',
      demo: true,
      dataDir: '/srv/app/.data',
      trustProxy: false,
      logLevel: 'warn',
    });
  });
  it('leave the demo out where a database is given', () => {
    expect(readConfig({ DATABASE_URL: 'postgresql://u:p@db/x' }, '/').demo).toBe(false);
  });
  it('take an empty value for none', () => {
    expect(readConfig({ PORT: '', SMTP_URL: '' }, '/')).toMatchObject({ port: 4800, smtpUrl: undefined });
  });
  it.each([
    [{ PORT: 'eighty' }, 'PORT: "eighty" is not right (port to listen on).'],
    [{ PORT: '70000' }, 'PORT: "70000" is not right'],
    [{ PUBLIC_URL: 'ftp://x' }, 'PUBLIC_URL: "ftp://x" is not right'],
    [{ DATABASE_URL: 'mysql://user:secret@db/x' }, 'DATABASE_URL: the value given is not right'],
    [{ SMTP_URL: 'mail.example' }, 'SMTP_URL: the value given is not right'],
    [{ LOG_LEVEL: 'loud' }, 'LOG_LEVEL: "loud" is not right'],
    [{ DEMO: 'yes' }, 'DEMO: "yes" is not right'],
    [{ SECOND_FACTOR: '1' }, 'SECOND_FACTOR: "1" is not right'],
    [{ IDLE_MINUTES: '3' }, 'IDLE_MINUTES: "3" is not right'],
    [{ PUBLIC_URL: 'https://office.example' }, 'PUBLIC_URL: the demo firm has sign-ins that everybody knows'],
    [{ DEMO: '0', PUBLIC_URL: 'http://office.example' }, 'PUBLIC_URL: people would type passwords over http'],
    [{ DEMO: '0', HOST: '0.0.0.0' }, 'PUBLIC_URL: people would type passwords over http'],
    [{ DATABASE_URL: 'postgresql://u:p@db.example/x' }, 'DATABASE_URL: the database is on another machine'],
    [{ DATABASE_URL: 'postgresql://u:p@db.example/x?sslmode=prefer' }, 'DATABASE_URL: the database is on another machine'],
    [{ TRAVEL_SERVICE: 'osrm', TRAVEL_URL: 'http://roads.example' }, 'TRAVEL_URL: places of houses would go over http'],
    [
      { METRICS_TOKEN: 'a token of sixteen', METRICS_TOKEN_FILE: '/x' },
      'METRICS_TOKEN: give it, or a file by METRICS_TOKEN_FILE, not both',
    ],
    [{ BACKUP_PASSPHRASE_FILE: '/nowhere/at/all' }, 'BACKUP_PASSPHRASE_FILE: /nowhere/at/all cannot be read'],
    [{ HOST: '0.0.0.0' }, 'HOST: the demo firm has sign-ins that everybody knows'],
    [{ HOST: '0.0.0.0', DEMO: '1', DATABASE_URL: 'postgresql://u:p@db/x' }, 'HOST: the demo firm'],
  ])('%o stops the start', (env, message) => {
    expect(() => readConfig(env, '/')).toThrow(message);
  });
  it.each([
    { DATABASE_URL: 'postgresql://u:p@db.example/x?sslmode=verify-full' },
    { DATABASE_URL: 'postgresql://u:p@db:5432/x', HOST: '0.0.0.0', PUBLIC_URL: 'https://office.example' },
    { TRAVEL_SERVICE: 'osrm', TRAVEL_URL: 'http://roads:5000' },
    { DATABASE_URL: 'postgresql://u:p@db.example/x', HOST: '0.0.0.0', PUBLIC_URL: 'http://office.example', PLAIN_HTTP: '1' },
  ])('%o is encrypted wherever it leaves the machine, or allowed not to be', (env) => {
    expect(() => readConfig(env, '/')).not.toThrow();
  });
  it('take what is secret from a file that the setting with _FILE names, and nothing else', () => {
    const file = path.join(fs.mkdtempSync(path.join(os.tmpdir(), 'secret-')), 'token');
    fs.writeFileSync(file, 'a token of sixteen and more\n');
    expect(readConfig({ METRICS_TOKEN_FILE: file, HOST_FILE: file }, '/')).toMatchObject({
      metricsToken: 'a token of sixteen and more',
      host: '127.0.0.1',
    });
  });
  it('never show a secret', () => {
    expect(() => readConfig({ DATABASE_URL: 'mysql://user:secret@db/x' }, '/')).not.toThrow('secret');
  });
});
