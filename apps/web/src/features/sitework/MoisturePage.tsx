// Help with moisture: the meter's number in wood, dew point and wood at rest, and whether a camera says anything about insulation. Works offline; nothing is recorded here.
import { useState, type ReactNode } from 'react';
import { TextInput } from '@mantine/core';
import { ABOVE_REST, NOTHING_RULED_OUT, scanLacks, WOOD_BANDS_SOURCE, woodBand } from '@backsight/domain/sitework/moisture';
import { dewPointF, woodAtRest } from '@backsight/domain/sitework/psychrometrics';
import { SitePage } from './SitePage.tsx';
import classes from './sitework.module.css';

export const MoisturePage = (): ReactNode => <SitePage title="Moisture">{() => <Help />}</SitePage>;

type Typed = Record<'percent' | 'air' | 'rh' | 'surface' | 'inside' | 'outside' | 'hours', string>;
const NOTHING: Typed = { percent: '', air: '', rh: '', surface: '', inside: '', outside: '', hours: '' };
const numberIn = (text: string, from: number, to: number): number | null => {
  const value = Number(text.replace(',', '.'));
  return text.trim() === '' || !Number.isFinite(value) || value < from || value > to ? null : value;
};
const one = (value: number): string => String(Math.round(value * 10) / 10);

function Help(): ReactNode {
  const [typed, setTyped] = useState(NOTHING);
  const field = (key: keyof Typed, label: string): ReactNode => (
    <TextInput
      label={label}
      size="lg"
      mt="sm"
      inputMode="decimal"
      autoComplete="off"
      value={typed[key]}
      onChange={(event) => setTyped({ ...typed, [key]: event.currentTarget.value })}
    />
  );
  const percent = numberIn(typed.percent, 0, 100);
  const [air, rh] = [numberIn(typed.air, -40, 140), numberIn(typed.rh, 0.1, 100)];
  const [inside, outside, hours] = [numberIn(typed.inside, -40, 140), numberIn(typed.outside, -80, 140), numberIn(typed.hours, 0, 72)];
  return (
    <>
      <p className={classes.notice}>{NOTHING_RULED_OUT}</p>
      <h2 className={classes.day}>Meter in wood</h2>
      {field('percent', 'Reading in % MC')}
      <div aria-live="polite">
        {percent === null ? null : <p className={classes.notice}>{woodBand(percent).words}</p>}
        <p className={classes.soft}>
          For wood only: on drywall, plaster or masonry the number compares one place with another. {WOOD_BANDS_SOURCE}
        </p>
      </div>
      <h2 className={classes.day}>Air</h2>
      {field('air', 'Air temperature in F')}
      {field('rh', 'Relative humidity in %')}
      {field('surface', 'Surface temperature in F (not needed)')}
      <div aria-live="polite">
        {air === null || rh === null ? null : <Air air={air} rh={rh} percent={percent} surface={numberIn(typed.surface, -80, 200)} />}
      </div>
      <h2 className={classes.day}>Camera on insulation</h2>
      {field('inside', 'Inside in F')}
      {field('outside', 'Outside in F')}
      {field('hours', 'Held for, in hours')}
      <div aria-live="polite">
        {inside === null || outside === null || hours === null ? null : (
          <Scan lacks={scanLacks({ insideF: inside, outsideF: outside, hours })} />
        )}
      </div>
    </>
  );
}

function Air({ air, rh, percent, surface }: { air: number; rh: number; percent: number | null; surface: number | null }): ReactNode {
  const dew = dewPointF(air, rh);
  const rest = woodAtRest(air, rh);
  return (
    <div className={classes.notice}>
      <p>
        Dew point {one(dew)} F. Wood comes to rest at {one(rest)} % in this air.
      </p>
      {surface !== null && surface <= dew ? <p>The surface is at or below the dew point: water condenses on it.</p> : null}
      {percent !== null && percent > rest + ABOVE_REST ? (
        <p>The meter reads {one(percent - rest)} points more than this air explains: look for a source of water.</p>
      ) : null}
      <p className={classes.soft}>
        Magnus form by Alduchov and Eskridge (1996); Wood Handbook, chapter 4. Wood takes weeks to follow the air.
      </p>
    </div>
  );
}

const Scan = ({ lacks }: { lacks: string[] }): ReactNode =>
  lacks.length === 0 ? (
    <p className={classes.notice}>Enough for an insulation scan. What the camera shows needs a second method before it is reported.</p>
  ) : (
    <div className={classes.caution}>
      <strong>An insulation scan says little now.</strong>
      <ul className={classes.plain}>
        {lacks.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </div>
  );
