// What leaves the liability pages as a file: tables, the quarter on paper, and the data for an actuary.
import { useState, type ReactNode } from 'react';
import { Anchor, Group, NativeSelect } from '@mantine/core';
import { getRouteApi } from '@tanstack/react-router';
import { DateTime } from 'luxon';
import { exportRoutes as routes } from '@backsight/contract/liability/tables';
import { useMe } from '../../api/people.ts';
import { TextLink } from '../../ui/links.tsx';
import { Page } from '../../ui/Page.tsx';
import { Section } from '../../ui/Section.tsx';
import { TableFiles } from './TableFiles.tsx';

const QUARTERS = 12;
/** Newest first: the one that runs and those before it. */
const quarters = (zone: string): { value: string; label: string }[] =>
  Array.from({ length: QUARTERS }, (_, back) => {
    const day = DateTime.now().setZone(zone).minus({ quarters: back });
    return { value: `${day.year}-Q${day.quarter}`, label: `Quarter ${day.quarter} of ${day.year}${back === 0 ? ', until today' : ''}` };
  });

const TABLES = [
  ['Every entry of money about callbacks', routes.transactions],
  ['Jobs, fees, callbacks and their money by month of inspection', routes.exposure],
] as const;

const Download = ({ href, children }: { href: string; children: ReactNode }): ReactNode => (
  <Anchor href={href} download underline="always" inherit>
    {children}
  </Anchor>
);

const route = getRouteApi('/shell/liabilities/files');

export function FilesPage(): ReactNode {
  const { zone } = useMe();
  const [choices] = useState(() => quarters(zone));
  const { quarter = choices[1]!.value } = route.useSearch();
  const navigate = route.useNavigate();
  return (
    <Page
      title="Reports and files"
      about="For the owner. What is set aside and why is an opinion: keep these files where such papers are kept."
      actions={<TextLink to="/liabilities">Liabilities</TextLink>}
    >
      <Section title="A quarter on paper">
        <Group align="end">
          <NativeSelect
            label="Quarter"
            data={choices}
            value={quarter}
            onChange={(event) => void navigate({ search: { quarter: event.currentTarget.value }, replace: true })}
          />
          <Anchor href={`${routes.quarter.path}?quarter=${quarter}`} target="_blank" underline="always" inherit py="xs">
            Open the report (PDF)
          </Anchor>
        </Group>
      </Section>
      <Section title="Data for an actuary">
        <p>
          Triangles by month, every entry of money, callbacks with their days, exposure by month, and what each column means. No names of
          persons or clients, no opinions. It counts everything, also files for the owner alone.
        </p>
        <Download href={routes.extract.path}>The extract (ZIP of CSV files)</Download>
      </Section>
      <Section title="Tables">
        <ul>
          {TABLES.map(([name, route]) => (
            <li key={route.path}>
              {name}. <TableFiles csv={route.path} of={name} />
            </li>
          ))}
        </ul>
        <p>The tables of the other pages of liabilities are offered there, for the span that you look at.</p>
      </Section>
    </Page>
  );
}
