// How the outbox runs: its server, quiet hours, and reminders.
import type { ReactNode } from 'react';
import { Button, Checkbox, NumberInput, SimpleGrid, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { MailSettings } from '@backsight/contract/mail';
import { changeMailSettings, mailSettingsQuery, sendTestMail } from '../../api/mail.ts';
import { clockOf, minuteOf } from '../../ui/clock.ts';
import { Details } from '../../ui/Details.tsx';
import { Form } from '../../ui/Form.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

export function SettingsPage(): ReactNode {
  const found = useQuery(mailSettingsQuery);
  return (
    <Page title="Mail settings" width="narrow" actions={<TextLink to="/mail">Outbox</TextLink>}>
      <ProblemNote of={found.error} />
      {found.isPending ? <Loading /> : null}
      {found.data ? <Server server={found.data.server} /> : null}
      {found.data ? <Change key={found.data.version} settings={found.data} /> : null}
    </Page>
  );
}

function Server({ server }: { server: MailSettings['server'] }): ReactNode {
  const test = useSend(() => sendTestMail(), { refresh: ['mail'], said: 'A test mail to you is on its way; the outbox says how it went.' });
  return (
    <Section
      title="Mail server"
      actions={
        <Button variant="default" loading={test.isPending} onClick={() => test.mutate()}>
          Send me a test mail
        </Button>
      }
    >
      <ProblemNote of={test.error} />
      {server ? (
        <Details
          rows={[
            ['Server', `${server.host}, port ${server.port}`],
            ['Encrypted', server.tls],
            ['Signs in as', server.user ?? 'nobody'],
          ]}
        />
      ) : (
        <p>No mail server is set: mail is kept in the outbox and as files. Whoever runs the service sets SMTP_URL.</p>
      )}
    </Section>
  );
}

const LABELS = {
  quietFromMinute: 'Quiet from (18:00 to 23:59)',
  quietUntilMinute: 'Quiet until (4:00 to 12:00)',
  signAfterDays: 'Remind to sign after days without a signature, up to three times',
  payBeforeDays: 'Remind to pay this many days before the due day',
  payOverdueDays: 'Remind to pay this many days after the due day',
  dayBefore: 'Remind clients of their visit on the day before',
};

function Change({ settings }: { settings: MailSettings }): ReactNode {
  const { quietFromMinute, quietUntilMinute, signAfterDays, payBeforeDays, payOverdueDays, dayBefore, version } = settings;
  const save = useSend(changeMailSettings, { refresh: ['mail'], said: 'The settings were saved.' });
  const initial = {
    quietFromMinute: clockOf(quietFromMinute),
    quietUntilMinute: clockOf(quietUntilMinute),
    signAfterDays,
    payBeforeDays,
    payOverdueDays,
    dayBefore,
  };
  const fields = useFields(initial, LABELS, save.error);
  const days = (name: 'signAfterDays' | 'payBeforeDays' | 'payOverdueDays') => (
    <NumberInput {...fields.number(name)} description="0 switches it off" allowDecimal={false} allowNegative={false} />
  );
  const { quietFromMinute: from, quietUntilMinute: until, ...rest } = fields.values;
  return (
    <Section title="Quiet hours and reminders">
      <p>
        In quiet hours only what is urgent leaves: danger, delays, and what concerns the next 24 hours. Nobody is reminded of what is done.
      </p>
      <Form
        error={save.error}
        labels={LABELS}
        draft={fields.draft}
        submit="Save the settings"
        busy={save.isPending}
        onSubmit={() => save.mutate({ ...rest, quietFromMinute: minuteOf(from) ?? 0, quietUntilMinute: minuteOf(until) ?? 0, version })}
      >
        <SimpleGrid cols={{ base: 1, sm: 2 }}>
          <TextInput type="time" {...fields.text('quietFromMinute')} />
          <TextInput type="time" {...fields.text('quietUntilMinute')} />
          {days('signAfterDays')}
          {days('payBeforeDays')}
          {days('payOverdueDays')}
        </SimpleGrid>
        <Checkbox mt="md" {...fields.check('dayBefore')} />
      </Form>
    </Section>
  );
}
