// The settings: defaults, and one clear line for each wrong value.
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
    [{ HOST: '0.0.0.0' }, 'HOST: the demo firm has sign-ins that everybody knows'],
    [{ HOST: '0.0.0.0', DEMO: '1', DATABASE_URL: 'postgresql://u:p@db/x' }, 'HOST: the demo firm'],
  ])('%o stops the start', (env, message) => {
    expect(() => readConfig(env, '/')).toThrow(message);
  });
  it('never show a secret', () => {
    expect(() => readConfig({ DATABASE_URL: 'mysql://user:secret@db/x' }, '/')).not.toThrow('secret');
  });
});
