// The firm's kit: pieces by kind with calibration and checks; what failed is blocked at once; out of service and back.
import { useState, type ReactNode } from 'react';
import { Button, Group, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { CHECK_KINDS, type KitItem } from '@backsight/contract/people/kit';
import { kitQuery } from '../../api/personFile.ts';
import { useMe } from '../../api/people.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { todayIn } from '../../ui/time.ts';
import { useOpenedFrom } from '../../ui/opened.ts';
import { Day } from '../../ui/When.tsx';
import { AddKit } from './AddKit.tsx';
import { ChangeKit } from './ChangeKit.tsx';
import { CheckNeeds } from './CheckNeeds.tsx';
import { FailKit } from './FailKit.tsx';
import { NoteCheck } from './NoteCheck.tsx';

type Act = 'change' | 'check' | 'fail';
type Chosen = { act: Act; id: string } | { act: 'add' | 'needs' } | null;

const route = getRouteApi('/shell/kit');

/** The kind of which the address asks for a piece, as the first steps of a firm do: /kit#add-respirator; '' = none. */
const kindAsked = (): string => /^#add-(.+)$/.exec(window.location.hash)?.[1] ?? '';

export function KitPage(): ReactNode {
  const me = useMe();
  const kit = useQuery(kitQuery);
  const { q: text = '' } = route.useSearch();
  const [wanted] = useState(kindAsked);
  const [chosen, setChosen] = useState<Chosen>(wanted === '' ? null : { act: 'add' });
  const navigate = route.useNavigate();
  useOpenedFrom(chosen);
  const may = me.roles.some((role) => role !== 'inspector');
  const close = () => setChosen(null);
  const item = chosen && 'id' in chosen ? kit.data?.items.find(({ id }) => id === chosen.id) : undefined;
  return (
    <Page
      title="Kit"
      about="What pairs carry that is shared, until when it is calibrated, and which checks are due."
      actions={
        may && chosen === null ? (
          <Group gap="xs">
            <Button variant="default" onClick={() => setChosen({ act: 'needs' })}>
              Which checks
            </Button>
            <Button onClick={() => setChosen({ act: 'add' })}>Add a piece</Button>
          </Group>
        ) : undefined
      }
    >
      <ProblemNote of={kit.error} />
      {kit.isPending ? <Loading /> : null}
      {may && chosen?.act === 'add' && kit.data ? (
        <Section title="Add a piece">
          <AddKit kinds={kit.data.kinds} wanted={wanted} done={close} />
        </Section>
      ) : null}
      {chosen?.act === 'needs' && kit.data ? (
        <Section title="Which checks a kind needs">
          <CheckNeeds kit={kit.data} done={close} />
        </Section>
      ) : null}
      {item && chosen ? <OneAct key={item.id + chosen.act} act={chosen.act as Act} item={item} done={close} /> : null}
      {kit.data?.items.length === 0 && chosen === null ? <Empty>No piece of kit is on file.</Empty> : null}
      {kit.data && kit.data.items.length > 0 ? (
        <>
          <TextInput
            label="Search"
            type="search"
            placeholder="Kind or serial number"
            mt="md"
            mb="md"
            maw="20rem"
            value={text}
            onChange={(event) => void navigate({ search: { q: event.currentTarget.value || undefined }, replace: true })}
          />
          <DataTable
            caption="Kit"
            columns={columnsFor(todayIn(me.zone), may, (act, id) => setChosen({ act, id }))}
            rows={kit.data.items.filter((item) => fits(item, text))}
            rowKey={({ id }) => id}
          />
        </>
      ) : null}
    </Page>
  );
}

const fits = ({ name, serial }: KitItem, text: string): boolean => `${name} ${serial}`.toLowerCase().includes(text.trim().toLowerCase());

const TITLES: Record<Act, string> = { change: '', check: 'Check of ', fail: 'Failed on site: ' };

function OneAct({ act, item, done }: { act: Act; item: KitItem; done: () => void }): ReactNode {
  return (
    <Section title={`${TITLES[act]}${item.name} ${item.serial}`}>
      {act === 'change' ? <ChangeKit item={item} done={done} /> : null}
      {act === 'check' && item.checks.length > 0 ? <NoteCheck item={item} done={done} /> : null}
      {act === 'fail' ? <FailKit item={item} done={done} /> : null}
    </Section>
  );
}

function Checks({ item, today }: { item: KitItem; today: string }): ReactNode {
  if (item.checks.length === 0) return 'none needed';
  return item.checks.map(({ checkKind, dueOn }) => (
    <div key={checkKind} style={{ minWidth: 'min(11rem, 45vw)' }}>
      {CHECK_KINDS[checkKind]}{' '}
      {dueOn === null ? (
        'never done'
      ) : (
        <>
          by <Day day={dueOn} />
          {dueOn < today ? ', overdue' : ''}
        </>
      )}
    </div>
  ));
}

const aboutPiece = ({ kind, seats, ladderFeet, size }: KitItem): string[] => [
  ...(size === null ? [] : [`size ${size}`]),
  ...(seats === null ? [] : [`${seats} seats`]),
  ...(ladderFeet === null ? [] : [kind === 'vehicle' ? `ladder up to ${ladderFeet} ft` : `${ladderFeet} ft long`]),
];

function Note({ item }: { item: KitItem }): ReactNode {
  const words = [...aboutPiece(item), item.note].filter(Boolean).join(', ');
  if (item.endedOn === null) return words;
  return (
    <>
      <strong>
        out of service since <Day day={item.endedOn} />
      </strong>
      {words ? `, ${words}` : ''}
    </>
  );
}

const columnsFor = (today: string, may: boolean, choose: (act: Act, id: string) => void): Column<KitItem>[] => [
  { key: 'name', head: 'Kind', cell: ({ name }) => name },
  { key: 'serial', head: 'Serial number', cell: ({ serial }) => serial },
  {
    key: 'calibrated',
    head: 'Calibrated until',
    cell: ({ calibratedUntil }) =>
      calibratedUntil === null ? (
        'not calibrated'
      ) : (
        <>
          <Day day={calibratedUntil} />
          {calibratedUntil < today ? ', lapsed' : ''}
        </>
      ),
  },
  { key: 'checks', head: 'Checks', cell: (item) => <Checks item={item} today={today} /> },
  { key: 'note', head: 'Note', cell: (item) => <Note item={item} /> },
  { key: 'act', head: 'Change', cell: (item) => <Acts item={item} may={may} choose={choose} /> },
];

function Acts({ item, may, choose }: { item: KitItem; may: boolean; choose: (act: Act, id: string) => void }): ReactNode {
  const acts: readonly (readonly [Act, string, boolean])[] = [
    ['check', 'Check', item.endedOn === null && item.checks.length > 0],
    ['fail', 'It failed', item.endedOn === null],
    ['change', 'Change', may],
  ];
  return (
    <Group gap={4} miw="10.5rem">
      {acts
        .filter(([, , shown]) => shown)
        .map(([act, label]) => (
          <Button
            key={act}
            size="compact-sm"
            variant="default"
            aria-label={`${label}: ${item.name} ${item.serial}`}
            onClick={() => choose(act, item.id)}
          >
            {label}
          </Button>
        ))}
    </Group>
  );
}
