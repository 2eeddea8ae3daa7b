// What goes and what stays when somebody asks to be erased; and what an owner holds back from the file of a job.
import { describe, expect, it } from 'vitest';
import { withhold } from '@backsight/domain/jobs/file';
import { partyLines, staffLines, type JobTie, type PartyFacts, type StaffFacts } from '@backsight/domain/personal/erasure';

const TODAY = '2030-06-01';
const job = (more: Partial<JobTie> = {}): JobTie => ({ id: 'j', number: 7, bound: true, until: '2036-05-12', held: null, ...more });
const party = (more: Partial<PartyFacts> = {}): PartyFacts => ({
  name: 'Paula Prior',
  contact: true,
  jobs: [],
  inquiries: 0,
  otherMail: 0,
  bars: 0,
  ...more,
});
const staff = (more: Partial<StaffFacts> = {}): StaffFacts => ({
  name: 'Amos',
  papersUntil: '2033-05-01',
  papersGone: false,
  contact: true,
  searches: 0,
  keptJobs: 0,
  ...more,
});
const said = (lines: ReturnType<typeof partyLines>) =>
  lines.map(({ act, goes, until }) => `${act} ${goes ? 'goes' : `stays ${until ?? ''}`.trim()}`).toSorted();

describe('somebody outside the firm', () => {
  it.each([
    ['whose job is within its time', party({ jobs: [job()] }), ['contact goes', 'job stays 2036-05-12', 'name stays 2036-05-12']],
    [
      'whose last day is today: it is kept for that day too',
      party({ jobs: [job({ until: TODAY })] }),
      ['contact goes', `job stays ${TODAY}`, `name stays ${TODAY}`],
    ],
    ['whose time was over yesterday', party({ jobs: [job({ until: '2030-05-31' })] }), ['contact goes', 'job goes', 'name goes']],
    [
      'whose time is over, but the job is held',
      party({ jobs: [job({ until: '2030-05-31', held: 'callback 3 is open' })] }),
      ['contact stays', 'job stays', 'name stays'],
    ],
    [
      'of whom one of two jobs is held',
      party({ jobs: [job({ until: '2030-05-31' }), job({ number: 8, held: 'the job is not finished' })] }),
      ['contact stays', 'job goes', 'job stays', 'name stays'],
    ],
    ['who only stood beside a job', party({ jobs: [job({ bound: false })] }), ['contact goes', 'name goes']],
    [
      'who stands beside a job that is open',
      party({ jobs: [job({ bound: false, held: 'the job is not finished' })] }),
      ['contact stays', 'name stays'],
    ],
    [
      'who asked for a price and never booked',
      party({ inquiries: 2, otherMail: 1, bars: 1 }),
      ['bars goes', 'contact goes', 'inquiries goes', 'mail goes', 'name goes'],
    ],
    ['of whom no address is left', party({ contact: false, jobs: [job()] }), ['job stays 2036-05-12', 'name stays 2036-05-12']],
  ])('%s', (_, facts, want) => {
    expect(said(partyLines(facts, TODAY))).toEqual(want);
  });
  it('is told what goes first, and why something stays', () => {
    const lines = partyLines(party({ jobs: [job({ held: 'callback 3 is open' })], inquiries: 1 }), TODAY);
    expect(lines.map(({ goes }) => goes)).toEqual([true, false, false, false]);
    expect(lines.filter(({ goes }) => !goes).map(({ why }) => why)).toEqual([
      'Held: callback 3 is open.',
      'They are needed while job 7 is open: callback 3 is open.',
      'It stands in the records that stay, and goes with the last of them.',
    ]);
  });
});

describe('somebody who worked for the firm', () => {
  it.each([
    ['whose papers are kept', staff(), ['contact goes', 'name stays 2033-05-01', 'papers stays 2033-05-01']],
    [
      'whose papers are due, but who inspected a house whose file is kept',
      staff({ papersUntil: '2030-01-01', keptJobs: 3, searches: 1 }),
      ['contact goes', 'name stays', 'papers goes', 'searches goes'],
    ],
    ['of whom everything is over', staff({ papersUntil: '2030-01-01' }), ['contact goes', 'name goes', 'papers goes']],
    ['whose papers went before', staff({ papersGone: true, contact: false }), ['name goes']],
  ])('%s', (_, facts, want) => {
    expect(said(staffLines(facts, TODAY))).toEqual(want);
  });
});

describe('holding back from the file of a job', () => {
  const items = [
    { key: 'mail 1', what: 'Mail of May 3 to A. Counsel' },
    { key: 'callback 2', what: 'Callback 2: missed' },
  ];
  it('says what and why, in the words of the list', () => {
    expect(withhold(items, [{ key: 'mail 1', why: ' Words with our attorney. ' }], true)).toMatchObject({
      ok: true,
      value: [{ what: 'Mail of May 3 to A. Counsel', why: 'Words with our attorney.' }],
    });
    expect(withhold(items, [], false)).toMatchObject({ ok: true, value: [] });
  });
  it.each([
    ['by the office', [{ key: 'mail 1', why: 'Words with our attorney.' }], false, 'file-withhold-owner', 'withheld'],
    ['without a reason', [{ key: 'mail 1', why: 'no' }], true, 'reason-too-short', 'withheld.0.why'],
    [
      'of another job',
      [
        { key: 'mail 1', why: 'Words with our attorney.' },
        { key: 'mail 9', why: 'Words with our attorney.' },
      ],
      true,
      'not-found',
      'withheld.1',
    ],
  ])('is refused %s', (_, asked, isOwner, code, field) => {
    expect(withhold(items, asked, isOwner)).toMatchObject({ ok: false, code, field });
  });
});
