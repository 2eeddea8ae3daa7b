// Mail to a server on another machine goes encrypted or not at all (OWASP ASVS 5.0.0, 12.3.1; RFC 8314, 4.1: no cleartext for submission).
import { describe, expect, it } from 'vitest';
import { mailWaits, serverShown, smtpMailer } from '../../../apps/api/src/http/mailer.ts';
import { FROM, smtpServer } from '../../support/smtp.ts';

const smtp = smtpServer(); // offers no STARTTLS
const mail = {
  id: '00000000-0000-7000-8000-000000000001',
  messageKey: 'k',
  toAddress: 'vera@mail.example',
  toName: 'Vera',
  subject: 's',
  body: 'b',
  calendar: null,
  html: '<p>b</p>',
  attachments: [],
};

describe('a mail server', () => {
  it('that offers no TLS gets nothing where TLS is a must, and the mail elsewhere', async () => {
    const url = `smtp://127.0.0.1:${smtp.state.port}`;
    const waits = { answerMs: 2000, wholeMs: 5000 };
    await expect(smtpMailer(url, { ...waits, requireTLS: true })(mail, FROM)).rejects.toThrow(/STARTTLS|TLS/);
    expect(smtp.arrived).toEqual([]);
    expect(await smtpMailer(url, waits)(mail, FROM)).toBe('sent');
  });
  it('on another machine must; on this one, beside it in containers, or where the installation says so, it need not', () => {
    expect(
      [
        ['smtp://mail.example:587', false],
        ['smtp://127.0.0.1', false],
        ['smtp://mailer', false],
        ['smtp://mail.example', true],
      ].map(([url, plain]) => mailWaits(url as string, plain as boolean).requireTLS),
    ).toEqual([true, false, false, false]);
    expect(serverShown('smtp://u:p@mail.example', false)).toMatchObject({ tls: 'always', user: 'u' });
  });
});
