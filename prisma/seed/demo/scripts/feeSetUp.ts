// What the firm charges and pays: pay rules from the start, a draft of next year's fees, and callers who asked for a price.
import type { FeeRule } from '@backsight/domain/fees/schedule';
import { shiftDay } from '@backsight/domain/shared/calendar';
import { findSchedule, scheduleInForce } from '@backsight/store/fees/schedules';
import { setPayRule } from '@backsight/usecases/fees/pay';
import { changeSchedule, draftSchedule } from '@backsight/usecases/fees/schedules';
import { endInquiry, saveInquiry } from '@backsight/usecases/jobs/inquiries';
import { hoursAfter } from '../calendar.ts';
import { inspectors } from '../people.ts';
import type { Scene, Stage } from '../stage.ts';
import { OFFICE, OWNER, type DemoContext } from './context.ts';

const PAID_SINCE = -120;

export function feesAreSetUp({ calendar }: DemoContext, stage: Stage): void {
  stage.at(calendar.at(shiftDay(calendar.today, PAID_SINCE), 9), paysPeople(shiftDay(calendar.today, PAID_SINCE)));
  stage.at(calendar.at(calendar.workday(-4), 15, 20), draftsFees);
  const asked = { followUpOn: calendar.today, note: 'Asks her brother first; the radon test makes it dear' };
  stage.at(
    calendar.at(calendar.workday(-3), 11, 5),
    asksForPrice({ caller: 'Greta Lindqvist', phone: '920-555-0161', radon: true, ...asked }),
  );
  const gone = { followUpOn: calendar.workday(-4), note: 'Compares dates with two other firms' };
  stage.at(
    calendar.at(calendar.workday(-6), 10, 15),
    becameNothing({ caller: 'Ingrid Sorley', phone: '920-555-0163', radon: false, ...gone }),
  );
  const later = { followUpOn: calendar.workday(2), note: 'Offer not accepted yet' };
  stage.at(
    calendar.at(calendar.workday(-1), 14, 40),
    asksForPrice({ caller: 'Walter Ode', phone: '920-555-0162', radon: false, ...later }),
  );
}

/** Leads write most reports and go as first; who is in training is paid by the hour. */
const paysPeople =
  (fromDay: string): Scene =>
  async (stage) => {
    for (const { id, trainee } of inspectors) {
      const rule = trainee
        ? { basis: { kind: 'hours', firstCents: 2_400, secondCents: 2_400 } as const, writer: { kind: 'none' } as const }
        : { basis: { kind: 'share', firstPercent: 24, secondPercent: 18 } as const, writer: { kind: 'amount', cents: 3_500 } as const };
      await stage.act(OWNER, setPayRule, { id: stage.newId(), personId: id, fromDay, rule });
    }
  };

const WEEKEND: FeeRule = {
  key: 'outside-hours',
  label: 'Evening or weekend visit',
  applies: { always: true },
  kind: 'outsideHours',
  before: 450,
  after: 1020,
  days: ['saturday', 'sunday', 'holiday'],
  cents: 7_500,
};

/** Next year's: the base a little dearer, older houses from 1985 on, and something for evenings and weekends. */
const dearer = (rule: FeeRule): FeeRule => {
  if (rule.kind === 'base') return { ...rule, bands: rule.bands.map((band) => ({ ...band, cents: band.cents + 1_500 })) };
  return rule.key === 'older' ? { ...rule, applies: { fact: 'yearBuilt', compare: 'below', value: 1985 } } : rule;
};

const draftsFees: Scene = async (stage) => {
  const id = stage.newId();
  const current = (await scheduleInForce(stage.reader, stage.now()))!;
  const name = 'Next year, with evenings and weekends';
  const { version } = await stage.act(OWNER, draftSchedule, { id, name, copyOf: current.id });
  const { body } = (await findSchedule(stage.reader, id))!;
  await stage.act(OWNER, changeSchedule, { id, version, name, rules: [...body.rules.map(dearer), WEEKEND] });
};

type Asked = { caller: string; phone: string; radon: boolean; followUpOn: string; note: string };

/** Asked again on the day that was agreed: it went to another firm. */
const becameNothing =
  (asked: Asked): Scene =>
  async (stage) => {
    const id = stage.newId();
    await asksForPrice(asked, id)(stage);
    stage.at(hoursAfter(stage.now(), 49), async (later) => {
      const outcomeNote = 'Another firm had a start two days sooner.';
      await later.act(OFFICE, endInquiry, { id, version: 1, outcome: 'date', outcomeNote, jobId: null });
    });
  };

const asksForPrice =
  ({ radon, ...asked }: Asked, id?: string): Scene =>
  async (stage) => {
    const facts = { kind: 'single_family', yearBuilt: 1974, livingArea: 2100, foundation: ['basement'] } as const;
    const services = ['inspection', ...(radon ? ['radon'] : [])];
    const draft = { caller: asked.caller, phone: asked.phone, role: 'client', facts, services, town: 'Birchmere' };
    const day = stage.now().toISOString().slice(0, 10);
    await stage.act(OFFICE, saveInquiry, {
      ...asked,
      id: id ?? stage.newId(),
      email: '',
      address: '',
      facts: { ...facts, foundation: [...facts.foundation] },
      services,
      day,
      place: null,
      draft,
    });
  };
