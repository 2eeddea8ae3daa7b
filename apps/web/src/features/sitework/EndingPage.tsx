// How a visit ended when it was not done to the end: recorded at the door on a phone, without signal too, or by the office afterwards.
import { useState, type ReactNode } from 'react';
import { FileInput, NumberInput, SimpleGrid, Textarea, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { ReplyOf } from '@backsight/contract/route';
import { EARLY_ENDINGS, REPORT_OWED, type endingRoutes } from '@backsight/contract/sitework/endings';
import { ENDINGS } from '@backsight/domain/sitework/endedAs';
import { endingQuery } from '../../api/desk.ts';
import { useMe } from '../../api/people.ts';
import { whileSending } from '../../ui/draft.ts';
import { Form } from '../../ui/Form.tsx';
import { asBase64 } from '../../ui/file.ts';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ChargeParts } from '../../ui/Parts.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { localInput, toInstant } from '../../ui/time.ts';
import { inputId, useFields } from '../../ui/useFields.ts';
import { When } from '../../ui/When.tsx';
import { Choices } from './Choices.tsx';
import { useEndEarly } from './useEndEarly.ts';
import classes from './sitework.module.css';

const route = getRouteApi('/shell/visits/$visitId/ending');
type About = ReplyOf<typeof endingRoutes.about>;
type Kind = (typeof EARLY_ENDINGS)[number];
type Owed = keyof typeof REPORT_OWED;

const first = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
const LABELS = {
  kind: 'How it ended',
  endedAt: 'When',
  waitedMinutes: 'Minutes waited',
  callsMade: 'Calls made',
  note: 'What happened',
  photo: 'Photo, if one was taken',
  reportOwed: 'Is a report owed?',
};

export function EndingPage(): ReactNode {
  const { visitId } = route.useParams();
  const { data: read, error, isPending } = useQuery(endingQuery(visitId));
  const end = useEndEarly(visitId);
  const data = read && { ...read, recordOpen: read.recordOpen || end.openedHere };
  return (
    <Page
      title="The visit ended early"
      width="narrow"
      about={
        data ? (
          <>
            {data.address}, {data.town}, job {data.jobNumber}, <When at={data.startsAt} until={data.endsAt} />
          </>
        ) : undefined
      }
    >
      {data ? null : <ProblemNote of={error} />}
      {isPending ? <Loading /> : null}
      {end.kept ? (
        <div className={classes.notice}>
          <p>Kept on this phone: how it ended. It is sent by itself.</p>
        </div>
      ) : null}
      {data && !end.kept ? data.endedAs === null ? <EndingForm key={data.id} about={data} end={end} /> : <Done about={data} /> : null}
    </Page>
  );
}

const Done = ({ about }: { about: About }): ReactNode => (
  <div className={classes.notice}>
    <p>
      On record: {about.endedAs ? ENDINGS[about.endedAs] : ''}. The office decides the rest on the page of{' '}
      <TextLink to="/jobs/$jobId" params={{ jobId: about.jobId }}>
        job {about.jobNumber}
      </TextLink>
      .
    </p>
  </div>
);

/** What the rule charges for this ending; whoever is at the door is not asked to decide it. */
function Charge({ about: { feeCents, charges }, kind }: { about: About; kind: Kind | '' }): ReactNode {
  const charge = charges.find((one) => one.kind === kind);
  if (!charge) return null;
  return (
    <div role="status">
      <ChargeParts charge={{ ...charge, feeCents }} because="By the firm's rule" />
      <p className={classes.soft}>The office decides afterwards whether it is charged or waived.</p>
    </div>
  );
}

function EndingForm({ about, end }: { about: About; end: ReturnType<typeof useEndEarly> }): ReactNode {
  const me = useMe();
  const kinds = EARLY_ENDINGS.filter((kind) => !about.recordOpen || kind.startsWith('stopped')).map((key) => ({
    key,
    label: first(ENDINGS[key]),
  }));
  const [photo, setPhoto] = useState<File | null>(null);
  const [unsaid, setUnsaid] = useState(false);
  const now = localInput(new Date(), me.zone);
  const fields = useFields(
    {
      kind: '' as Kind | '',
      endedAt: now,
      waitedMinutes: '' as number | '',
      callsMade: '' as number | '',
      note: '',
      photo: '',
      reportOwed: (about.recordOpen ? 'later' : 'no') as Owed,
    },
    LABELS,
    end.error,
  );
  const { values } = fields;
  const send = async () => {
    const { kind, note, reportOwed } = values;
    setUnsaid(kind === '');
    if (kind === '') return document.getElementById(inputId('kind'))?.querySelector('input')?.focus();
    const count = (value: number | ''): number | null => (kind === 'nobody_came' && value !== '' ? value : null);
    const sent = photo ? { name: photo.name, base64: await asBase64(photo) } : null;
    whileSending(fields.draft, () =>
      end.put(
        {
          kind,
          note,
          reportOwed,
          endedAt: toInstant(values.endedAt, me.zone),
          waitedMinutes: count(values.waitedMinutes),
          callsMade: count(values.callsMade),
          photo: sent,
        },
        about.recordOpen,
      ),
    );
  };
  const owed = (Object.keys(REPORT_OWED) as Owed[])
    .filter((one) => one !== 'yes' || about.recordOpen)
    .map((one) => ({ key: one, label: first(REPORT_OWED[one]) }));
  return (
    <div className={classes.work}>
      <Form
        error={end.error}
        labels={LABELS}
        draft={fields.draft}
        submit="Record how it ended"
        busy={end.busy}
        onSubmit={() => void send()}
      >
        <div id={inputId('kind')}>
          {unsaid && values.kind === '' ? <p role="alert">Choose how it ended.</p> : null}
          <Choices legend={LABELS.kind} name="kind" options={kinds} value={values.kind} onChange={(kind) => fields.set('kind', kind)} />
        </div>
        <Charge about={about} kind={values.kind} />
        <TextInput {...fields.text('endedAt')} type="datetime-local" required mt="sm" />
        {values.kind === 'nobody_came' ? (
          <SimpleGrid cols={2} mt="sm">
            <NumberInput {...fields.value('waitedMinutes')} min={0} max={600} required />
            <NumberInput {...fields.value('callsMade')} min={0} max={100} required />
          </SimpleGrid>
        ) : null}
        <Textarea {...fields.text('note')} autosize minRows={2} maxLength={1000} mt="sm" />
        <FileInput
          id={inputId('photo')}
          label={LABELS.photo}
          accept="image/jpeg,image/png"
          clearable
          clearButtonProps={{ 'aria-label': 'Take the photo out' }}
          mt="sm"
          value={photo}
          onChange={setPhoto}
        />
        <div id={inputId('reportOwed')}>
          <Choices
            legend={LABELS.reportOwed}
            name="owed"
            options={owed}
            value={values.reportOwed}
            onChange={(one) => fields.set('reportOwed', one)}
          />
        </div>
        {about.recordOpen ? (
          <p className={classes.soft}>
            Every step that was not reached is recorded as &quot;visit ended before&quot;. Nobody is asked why.
          </p>
        ) : null}
      </Form>
    </div>
  );
}
