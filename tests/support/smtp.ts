// A real SMTP server for tests, which answers each mail as it is told.
import { simpleParser, type ParsedMail } from 'mailparser';
import { SMTPServer } from 'smtp-server';
import { afterAll, beforeAll, beforeEach } from 'vitest';
import { smtpMailer } from '../../apps/api/src/http/mailer.ts';
import type { HandOver } from '@backsight/usecases/mail/deliver';

/** accept; refuse: 550 after the content; later: 451; cut: the line drops in the content; slow: no answer in time; nobody: 550 to the recipient. */
export type SmtpAnswer = 'accept' | 'refuse' | 'later' | 'cut' | 'slow' | 'nobody';
export const FROM = { name: 'Test Inspections', address: 'office@test.example' };
const SHORT = { answerMs: 3000, wholeMs: 12_000 };

const failure = (text: string, responseCode: number): Error => Object.assign(new Error(text), { responseCode });

/** Before each test it `forgets` what arrived, unless told otherwise. `answers` are taken one for each mail, then everything is accepted; `arrived` is what was accepted; `port` is known once tests run. */
export function smtpServer({ forgets = true } = {}) {
  const arrived: ParsedMail[] = [];
  const answers: SmtpAnswer[] = [];
  const state: { port: number; handOver: HandOver } = { port: 0, handOver: () => Promise.reject(new Error('not listening')) };
  const server = new SMTPServer({
    disabledCommands: ['AUTH', 'STARTTLS'],
    onRcptTo(_, __, done) {
      if (answers[0] !== 'nobody') return done();
      answers.shift();
      done(failure('5.1.1 no such mailbox', 550));
    },
    onData(stream, session, done) {
      const answer = answers.shift() ?? 'accept';
      if (answer === 'cut') {
        const { connections } = server as unknown as { connections: Set<{ id: string; _socket: { destroy: () => void } }> };
        for (const one of connections) if (one.id === session.id) one._socket.destroy();
        return;
      }
      void simpleParser(stream).then((mail) => {
        if (answer === 'slow') return;
        if (answer === 'accept') arrived.push(mail);
        done(answer === 'accept' ? null : answer === 'later' ? failure('4.3.2 try later', 451) : failure('5.7.1 not wanted', 550));
      }, done); // whoever sends it may be gone before its end
    },
  });
  server.on('error', () => {});
  beforeAll(async () => {
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    state.port = (server.server.address() as { port: number }).port;
    const mailer = smtpMailer(`smtp://127.0.0.1:${state.port}`, SHORT);
    state.handOver = (mail) => mailer(mail, FROM);
  });
  afterAll(() => new Promise<void>((resolve) => server.close(resolve)));
  beforeEach(() => {
    if (forgets) arrived.length = 0;
    answers.length = 0;
  });
  return { arrived, answers, state };
}
