// Tag: time.
// Wordings, their HTML, what a server's answer means, quiet hours, contacts and text links.
import { describe, expect, it } from 'vitest';
import { contactProblem, textFor } from '@backsight/domain/mail/contact';
import { mailHtml } from '@backsight/domain/mail/html';
import { mayWord, writeLetter } from '@backsight/domain/mail/letter';
import { isQuiet, isSoon } from '@backsight/domain/mail/quiet';
import { headerText, verdictOn } from '@backsight/domain/mail/retry';
import { MAIL_KINDS, TEMPLATES, type Template } from '@backsight/domain/mail/templates';
import { smsLink } from '@backsight/domain/shared/sms';

describe('a wording', () => {
  it.each(MAIL_KINDS)('built in for %s fills in from its own fields, holds what it must, and leaves no field over', (kind) => {
    const { fields, optional, subject, body }: Template = TEMPLATES[kind];
    expect(mayWord(kind, { subject, body })).toMatchObject({ ok: true });
    const least = Object.fromEntries(Object.keys(fields).map((name) => [name, optional.includes(name) ? '' : `<${name}>`]));
    const written = writeLetter(kind, null, least);
    expect(written).toMatchObject({ ok: true });
    const text = written.ok ? `${written.value.subject}\n${written.value.body}` : '';
    expect(text).not.toMatch(/[{}]|\n{3}|[ \t]\n/);
  });
  it('about a problem admits nothing unless the firm words it so', () => {
    expect(TEMPLATES.decision.body).toContain('without admission of responsibility');
    expect(TEMPLATES.callback_acknowledgement.body).toContain('does not mean that we accept responsibility');
  });
  it.each([
    ['an unknown field', 'Dear {{name}}, {{link}} {{password}}', 'mail-unknown-field', 'body'],
    ['a field of every object', '{{link}} {{constructor}}', 'mail-unknown-field', 'body'],
    ['no link to sign by', 'Dear {{name}}, please sign.', 'mail-field-missing', 'body'],
  ])('with %s is refused', (_, body, code, about) => {
    expect(mayWord('agreement', { subject: 'Sign', body })).toMatchObject({ ok: false, code, field: about });
  });
  it('with an unknown field in its subject is refused there', () => {
    expect(mayWord('agreement', { subject: '{{x}}', body: '{{link}}' })).toMatchObject({ ok: false, field: 'subject' });
  });
  it('of the firm takes the place of the built-in one, and a value is never read as a field', () => {
    const own = { subject: 'Hi {{name}}', body: 'See {{appointment}}' };
    const written = writeLetter('confirmation', own, { name: '{{firm}}', appointment: 'Monday' });
    expect(written).toMatchObject({ ok: true, value: { subject: 'Hi {{firm}}', body: 'See Monday' } });
  });
  it('says which field is still empty', () => {
    expect(writeLetter('confirmation', null, { name: 'A' })).toMatchObject({ ok: false, code: 'mail-empty-field' });
  });
});

describe('the HTML of a mail', () => {
  it('escapes what people write, and keeps paragraphs and lines', () => {
    const html = mailHtml('<b>', 'Dear "A" & <script>alert(1)</script>,\nline\n\nnext');
    expect(html).toContain('<p>Dear &quot;A&quot; &amp; &lt;script&gt;alert(1)&lt;/script&gt;,<br>\nline</p>\n<p>next</p>');
    expect(html).toContain('<title>&lt;b&gt;</title>');
  });
  it('makes links of addresses, without the punctuation behind them', () => {
    const html = mailHtml('x', 'See https://a.example/x?y=1&z="2. Not javascript:alert(1)');
    expect(html).toContain('<a href="https://a.example/x?y=1&amp;z=">https://a.example/x?y=1&amp;z=</a>&quot;2.');
    expect(html.match(/<a /g)).toHaveLength(1);
  });
});

// RFC 5321, 4.2.1: 4yz may pass, 5yz will not.
it.each([
  [{ responseCode: 550, command: 'RCPT TO' }, 'address'],
  [{ responseCode: 554, command: 'DATA' }, 'message'],
  [{ responseCode: 451, command: 'DATA' }, 'later'],
  [{ responseCode: 450, command: 'RCPT TO' }, 'later'],
  [{ responseCode: 535, command: 'AUTH PLAIN' }, 'later'],
  [{ responseCode: 550, command: 'MAIL FROM' }, 'later'],
  [{}, 'later'],
] as const)('the answer %j is about the %s', (answer, verdict) => expect(verdictOn(answer)).toBe(verdict));

it.each(['a\r\nBcc: b', 'a\nBcc: b', 'a\u0000\u2028Bcc: b'])('a header stays one line: %j', (text) =>
  expect(headerText(text)).toBe('a Bcc: b'),
);

describe('quiet hours', () => {
  const hours = { quietFromMinute: 21 * 60, quietUntilMinute: 7 * 60 };
  // United States rules: clocks go forward on 8 March and back on 1 November 2026, at 2:00.
  it.each([
    ['2026-03-08T07:59:00Z', true], // 1:59 CST, before the hour that is left out
    ['2026-03-08T08:00:00Z', true], // 3:00 CDT
    ['2026-03-08T12:00:00Z', false], // 7:00 CDT
    ['2026-11-01T06:30:00Z', true], // 1:30 CDT
    ['2026-11-01T07:30:00Z', true], // 1:30 CST
    ['2026-11-01T12:59:00Z', true], // 6:59 CST
    ['2026-11-01T13:00:00Z', false],
    ['2026-06-01T02:00:00Z', true], // 21:00 CDT
    ['2026-06-01T01:59:00Z', false],
  ])('at %s: %s', (at, quiet) => expect(isQuiet(new Date(at), 'America/Chicago', hours)).toBe(quiet));
  it('do not keep back what is near', () => {
    const now = new Date('2026-06-01T02:00:00Z');
    expect([23, 24, 25].map((h) => isSoon(new Date(now.getTime() + h * 3_600_000), now))).toEqual([true, false, false]);
  });
});

describe('a contact', () => {
  const facts = { parties: ['p'], now: new Date('2026-05-12T17:00:00Z') };
  it.each([
    ['of the job', 'p', '2026-05-12T17:00:00Z', null],
    ['of another job', 'q', '2026-05-12T17:00:00Z', 'contact-not-of-job'],
    ['not made yet', 'p', '2026-05-12T17:00:01Z', 'contact-ahead'],
  ])('%s', (_, partyId, at, code) => {
    expect(contactProblem({ partyId, happenedAt: new Date(at) }, facts)?.code ?? null).toBe(code);
  });
  it('has a text that names firm, place and time', () => {
    const text = textFor({ firm: 'F', firmPhone: '920-555-0100', address: '1 Quay St', appointment: 'Monday' });
    expect(text).toBe('F: your appointment at 1 Quay St is Monday. Questions? 920-555-0100');
  });
});

// RFC 5724: "sms:" and the number in its global form, the body percent-encoded in UTF-8.
it.each([
  ['920-555-0123', 'sms:+19205550123?body=Hi%20there%20%26%20%3F%C3%A9'],
  ['1 (920) 555 0123', 'sms:+19205550123?body=Hi%20there%20%26%20%3F%C3%A9'],
  ['+44 20 7946 0018', 'sms:+442079460018?body=Hi%20there%20%26%20%3F%C3%A9'],
  ['ask', null],
])('the text link of %s', (phone, link) => expect(smsLink(phone, 'Hi there & ?é')).toBe(link));
