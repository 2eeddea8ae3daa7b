// Before steps in a crawl space, attic, on a roof or at a panel: the stop list; and a return time before somebody goes in.
import { HAZARD_PLACES, type HazardPlace } from '@backsight/domain/shared/places';
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import type { MemberRecord, SiteStep } from '@backsight/contract/sitework';
import { ENTERED_PLACES, type EnteredPlace, type KnownAct, type SiteAct } from '@backsight/domain/sitework/act';
import { lookAt, lookFor, stopsOf } from '@backsight/domain/sitework/hazards';
import { insideNow } from '@backsight/domain/sitework/inside';
import { Choices } from './Choices.tsx';
import { itemName, partnerOf } from './recordModel.ts';
import { Ticks } from './Ticks.tsx';
import classes from './sitework.module.css';

type Props = {
  record: MemberRecord;
  acts: readonly KnownAct[];
  step: SiteStep;
  onAct: (act: SiteAct, how?: { by: string }) => void;
  children: ReactNode;
};

/** Shows the step once its place was looked at; a stop has closed it, and it may still be recorded as really looked at. */
export function HazardGate({ record, acts, step, onAct, children }: Props): ReactNode {
  const wanted = lookFor(step);
  if (wanted === null || record.state === 'sealed') return children;
  const look = lookAt(acts, wanted.place, wanted.item);
  const { place } = wanted;
  const goesIn = isEntered(place) && partnerOf(record) ? () => onAct({ do: 'went_in', place, backBy: inMinutes(USUAL) }) : null;
  const name = itemName(record, wanted.item) ?? HAZARD_PLACES[wanted.place];
  if (look === null) return <StopList name={name} {...wanted} goesIn={goesIn} onAct={onAct} />;
  const labels = stopsOf(wanted.place).filter(({ key }) => look.stops.includes(key));
  return (
    <>
      {labels.length > 0 ? (
        <div className={classes.caution}>
          <strong>Nobody goes there: {name}.</strong>
          {labels.map(({ label }) => label).join('; ')}. Its steps stand as "could not be inspected safely".
        </div>
      ) : isEntered(wanted.place) ? (
        <GoIn record={record} acts={acts} place={wanted.place} onAct={onAct} />
      ) : null}
      {children}
    </>
  );
}

const isEntered = (place: HazardPlace): place is EnteredPlace => (ENTERED_PLACES as readonly HazardPlace[]).includes(place);

/** `goesIn` notes that whoever holds the phone goes in with the usual time to be back; null where nobody goes in, or is alone. */
type ListProps = { name: string; place: HazardPlace; item: string | null; goesIn: (() => void) | null; onAct: Props['onAct'] };

function StopList({ name, place, item, goesIn, onAct }: ListProps): ReactNode {
  const [stops, setStops] = useState<string[]>([]);
  const put = () => onAct({ do: 'hazard_look', place, item, stops });
  return (
    <section className={classes.step}>
      <h2>Look first: {name}</h2>
      <p>Any one of these and nobody goes. Nobody asks why, and no setting counts it against anybody.</p>
      <Ticks legend="Is one of these there?" options={stopsOf(place)} value={stops} onChange={setStops} />
      <div className={classes.acts}>
        {stops.length === 0 ? (
          <>
            <Button size="xl" fullWidth onClick={put}>
              None of these is there
            </Button>
            {goesIn ? (
              <Button
                size="xl"
                fullWidth
                variant="default"
                onClick={() => {
                  put();
                  goesIn();
                }}
              >
                None, and I go now: back in {USUAL} minutes
              </Button>
            ) : null}
          </>
        ) : (
          <Button size="xl" fullWidth color="red" onClick={put}>
            Stop: could not be inspected safely
          </Button>
        )}
      </div>
    </section>
  );
}

const MINUTES = ['10', '15', '20', '30'] as const;
const USUAL = '15';
const inMinutes = (minutes: string): string => new Date(Date.now() + Number(minutes) * 60_000).toISOString();

/** One goes in, the other stays outside; the time by which the one inside is back is agreed first. */
function GoIn({ record, acts, place, onAct }: Pick<Props, 'record' | 'acts' | 'onAct'> & { place: EnteredPlace }): ReactNode {
  const partner = partnerOf(record);
  const [who, setWho] = useState(record.me);
  const [minutes, setMinutes] = useState<(typeof MINUTES)[number]>(USUAL);
  if (!partner || insideNow(acts).some((one) => one.place === place)) return null;
  return (
    <details className={classes.more}>
      <summary>Somebody goes in or up: set the time to be back</summary>
      <Choices
        legend="Who goes"
        name={`goes-${place}`}
        two
        options={[
          { key: record.me, label: 'I do' },
          { key: partner.personId, label: partner.name },
        ]}
        value={who}
        onChange={setWho}
      />
      <Choices
        legend="Back in"
        name={`back-${place}`}
        two
        options={MINUTES.map((key) => ({ key, label: `${key} minutes` }))}
        value={minutes}
        onChange={setMinutes}
      />
      <div className={classes.acts}>
        <Button size="xl" fullWidth onClick={() => onAct({ do: 'went_in', place, backBy: inMinutes(minutes) }, { by: who })}>
          Going in now
        </Button>
      </div>
    </details>
  );
}
