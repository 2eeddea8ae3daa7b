// What goes and what stays when somebody asks to be forgotten, each with its reason.

export const SUBJECTS = { party: 'somebody outside the firm', person: 'somebody who worked for the firm' } as const;
export type Subject = keyof typeof SUBJECTS;

export const ASKED_HOW = { mail: 'by e-mail', letter: 'by letter', phone: 'by phone', in_person: 'in person' } as const;
export type AskedHow = keyof typeof ASKED_HOW;

/** Said before and after: an act on the database reaches no copy of it. */
export const BACKUPS =
  'Backups made before still hold what goes here, until you delete them: say in your own schedule when the last of them is gone, and erase again after a restore from one of them.';

/** A job on which somebody is. `bound`: its records say that they ordered, paid, signed, received or complained; `until` and `held` as the database works them out. */
export type JobTie = { id: string; number: number; bound: boolean; until: string | null; held: string | null };

export type PartyFacts = {
  name: string;
  contact: boolean;
  jobs: readonly JobTie[];
  /** Prices asked and not booked, and mail about no job, by the same address or phone. */
  inquiries: number;
  otherMail: number;
  bars: number;
};

export type StaffFacts = {
  name: string;
  papersUntil: string | null;
  papersGone: boolean;
  contact: boolean;
  searches: number;
  /** Jobs on which they were and whose files are kept, and the last day for which one of them is. */
  keptJobs: number;
};

/** `act`: what the program does for a line that goes. */
export type EraseLine = {
  act: 'job' | 'contact' | 'name' | 'inquiries' | 'mail' | 'bars' | 'papers' | 'searches';
  /** The job, where the line is about one. */
  id: string | null;
  what: string;
  goes: boolean;
  why: string;
  /** The last day for which it is kept; null = goes, or no day can be said. */
  until: string | null;
};

const line = (
  act: EraseLine['act'],
  what: string,
  goes: boolean,
  why: string,
  more: { id?: string; until?: string | null } = {},
): EraseLine => ({
  ...{ act, what, goes, why },
  id: more.id ?? null,
  until: more.until ?? null,
});
const GOES = 'Nothing asks for it to be kept.';

const ofJob = (job: JobTie, today: string): EraseLine => {
  const what = `Records of job ${job.number}: papers, mail, calls and callbacks`;
  if (job.held !== null) return line('job', what, false, `Held: ${job.held}.`, { id: job.id });
  if (job.until === null || job.until >= today)
    return line('job', what, false, 'The policy of the firm, and the rules of the state, ask for it to be kept.', {
      id: job.id,
      until: job.until,
    });
  return line('job', what, true, 'The time for which it had to be kept is over.', { id: job.id });
};

/** Lines for somebody outside the firm: those that go first. `today` is an ISO day. */
export function partyLines(f: PartyFacts, today: string): EraseLine[] {
  const jobs = f.jobs.filter(({ bound }) => bound).map((job) => ofJob(job, today));
  const kept = jobs.filter(({ goes }) => !goes);
  const open = f.jobs.find(({ held }) => held !== null);
  const some = (n: number, act: 'inquiries' | 'mail' | 'bars', what: string): EraseLine[] =>
    n > 0 ? [line(act, `${what} (${n})`, true, GOES)] : [];
  const last =
    kept
      .map(({ until }) => until)
      .toSorted((a, b) => (a ?? '9999').localeCompare(b ?? '9999'))
      .at(-1) ?? null;
  return sorted([
    ...jobs,
    ...(f.contact
      ? [
          open
            ? line(
                'contact',
                'Phone, e-mail address, wishes and notes',
                false,
                `They are needed while job ${open.number} is open: ${open.held}.`,
              )
            : line('contact', 'Phone, e-mail address, wishes and notes', true, GOES),
        ]
      : []),
    kept.length > 0 || open
      ? line('name', `The name ${f.name}`, false, 'It stands in the records that stay, and goes with the last of them.', {
          until: open ? null : last,
        })
      : line('name', `The name ${f.name}`, true, GOES),
    ...some(f.inquiries, 'inquiries', 'Prices asked and not booked'),
    ...some(f.otherMail, 'mail', 'Mail about no job'),
    ...some(f.bars, 'bars', 'Reasons why somebody of ours is not sent there'),
  ]);
}

/** Lines for somebody who worked for the firm. */
export function staffLines(f: StaffFacts, today: string): EraseLine[] {
  const due = f.papersUntil !== null && f.papersUntil < today;
  const papers = f.papersGone
    ? []
    : [
        due
          ? line('papers', 'Licenses, education, absences, hours', true, 'The time for which they had to be kept is over.')
          : line('papers', 'Licenses, education, absences, hours', false, 'Papers of former people are kept as long as the policy says.', {
              until: f.papersUntil,
            }),
      ];
  const nameStays = f.keptJobs > 0 || papers.some(({ goes }) => !goes);
  return sorted([
    ...papers,
    ...(f.contact ? [line('contact', 'Phone, home, e-mail address, password and what signs in', true, GOES)] : []),
    nameStays
      ? line(
          'name',
          `The name ${f.name}`,
          false,
          f.keptJobs > 0
            ? `It stands in the records of ${f.keptJobs} jobs that are kept, and goes with the last of them.`
            : 'It goes with the papers that stay.',
          { until: f.keptJobs > 0 ? null : f.papersUntil },
        )
      : line('name', `The name ${f.name}`, true, GOES),
    ...(f.searches > 0 ? [line('searches', `Searches kept under a name (${f.searches})`, true, GOES)] : []),
  ]);
}

const sorted = (lines: EraseLine[]): EraseLine[] => lines.toSorted((a, b) => Number(b.goes) - Number(a.goes));

/** What is never part of an export of one person, and why. */
export const NOT_EXPORTED: readonly { what: string; why: string }[] = [
  {
    what: 'Conclusions, accounts of the pair and money set aside for callbacks',
    why: 'Opinions of the firm about its own work; they are no statement about you.',
  },
  { what: 'Private links, passwords, keys and digests', why: 'Whoever has one can sign or sign in.' },
  { what: 'Records of other people, and of other jobs at the same property', why: 'Theirs alone.' },
  { what: 'The site record and its photos', why: 'A work paper of the firm; the report says what was found.' },
];
