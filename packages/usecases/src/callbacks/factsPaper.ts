// The facts part of a callback's file on paper: what was said, who was there, what was recorded beside what the report said. No opinion is in it.
import { partBlocks, type PaperPart } from '@backsight/documents/papers/parts';
import type { PdfFile } from '@backsight/documents/pdf/content';
import { pdfOf } from '@backsight/documents/pdf/write';
import { KINDS, SPEAKERS, STATES, type Kind } from '@backsight/domain/callbacks/words';
import { formatUsd } from '@backsight/domain/shared/money';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { listed } from '@backsight/domain/shared/phrases';
import { eventsOf, findCallback, wordsOf, type CallbackRow } from '@backsight/store/callbacks';
import { earlierCallbacks, findJobForCallback, whoInspected, type JobForCallback } from '@backsight/store/callbacks/job';
import type { Reader } from '@backsight/store/database';
import { letterhead } from '../firm/steps/letterhead.ts';
import { sayIn, table } from '../jobs/steps/fileParts.ts';
import type { Actor } from '../run.ts';
import { readBackground } from './readBackground.ts';
import { readEvidence } from './readEvidence.ts';
import { isOwner, rolesOf } from './steps/callback.ts';
import { CONFIDENTIAL } from './steps/confidential.ts';

type Say = ReturnType<typeof sayIn>;
type Found = NonNullable<Awaited<ReturnType<typeof readEvidence>>>;
type Around = NonNullable<Awaited<ReturnType<typeof readBackground>>>;

/** Refusal: not-found, for whoever may not see the callback too. */
export async function factsPaper(reader: Reader, { id, actor, now }: { id: string; actor: Actor; now: Date }): Promise<Outcome<PdfFile>> {
  const roles = rolesOf(actor);
  const [evidence, around] = [await readEvidence(reader, { id, roles }), await readBackground(reader, { id, roles })];
  if (!evidence || !around) return refuse('not-found', { thing: 'callback' });
  const callback = (await findCallback(reader, id))!;
  const job = (await findJobForCallback(reader, callback.jobId))!;
  const say = sayIn(job.zone);
  // Those of an earlier client of the house are theirs alone, and this paper may leave the firm.
  const others = (await earlierCallbacks(reader, job.propertyId)).filter(
    (one) => one.id !== id && one.jobNumber === job.number && (!one.ownerOnly || isOwner(roles)),
  );
  const parts: PaperPart[] = [
    ...(await saidPart(reader, callback, job, say)),
    ...pairPart(around, say),
    ...termsPart(around, evidence),
    ...recordPart(evidence, around, say),
    ...reportPart(evidence),
    ...mailPart(around, say),
    ...othersPart(others.map(({ number, kind, state }) => [String(number), KINDS[kind as Kind], state])),
  ];
  return accept({
    name: `callback-${callback.number}-facts.pdf`,
    bytes: await pdfOf({
      ...(await letterhead(reader, now, callback.jobId)),
      title: `Callback ${callback.number}: the facts`,
      foot: `Callback ${callback.number}, facts only`,
      blocks: [
        {
          kind: 'notice',
          words: 'Facts only: what was said, recorded, reported and written. Conclusions and other opinions are not in this paper.',
        },
        ...parts.flatMap(partBlocks),
      ],
    }),
  });
}

async function saidPart(reader: Reader, callback: CallbackRow, job: JobForCallback, say: Say): Promise<PaperPart[]> {
  const events = (await eventsOf(reader, callback.id)).filter(({ kind }) => !CONFIDENTIAL.includes(kind));
  return [
    {
      heading: 'What was said',
      pairs: [
        ['Property', `${job.address}, ${job.town}`],
        ['Job', `${job.number}, inspected ${job.inspectedOn ?? 'not yet'} by ${listed(whoInspected(job), 'and')}`],
        ['Who speaks', SPEAKERS[callback.speaker]],
        ['What it is', `${KINDS[callback.kind]}, ${STATES[callback.state]}`],
        ['System and place', `${callback.system.replaceAll('_', ' ')}, ${callback.place}`],
        ['Received', say(callback.receivedAt.toISOString())],
        ['In their words', (await wordsOf(reader, callback.textId)) ?? '(erased)'],
      ],
    },
    ...table(
      ['When', 'What happened', 'By', 'Words'],
      events.map((e) => [
        say(e.happenedAt.toISOString()),
        e.kind.replaceAll('_', ' '),
        e.actor ?? 'the service',
        e.kind === 'received' || e.kind === 'letter' ? '' : (e.words ?? ''),
      ]),
    ),
  ];
}

const pairPart = ({ pair, day }: Around, say: Say): PaperPart[] => [
  { heading: `Who was there, and what they held on ${day ?? 'the day of the visit'}` },
  ...table(
    ['Who', 'License', 'From', 'Until', 'In force on that day'],
    pair.flatMap(({ name, licenses }) =>
      licenses.map((l) => [name, `${l.kind.replaceAll('_', ' ')} ${l.number}`, l.fromDay, l.untilDay, l.inForce ? 'yes' : 'no']),
    ),
  ),
  ...table(
    ['Who', 'Procedure', 'Revision', 'Acknowledged'],
    pair.flatMap(({ name, acknowledged }) =>
      acknowledged.map((a) => [name, a.procedure, String(a.revision), a.at === null ? 'never' : say(a.at)]),
    ),
  ),
];

function termsPart({ terms }: Around, { agreements, windows }: Found): PaperPart[] {
  const { window } = windows;
  const signed = (agreements.find(({ id }) => id === terms?.agreementId)?.signers ?? []).map(
    ({ name, signedAt }) => `${name} ${signedAt === null ? 'has not signed' : `signed ${signedAt.slice(0, 10)}`}`,
  );
  return [
    { heading: 'The agreement' },
    terms === null
      ? { text: 'There is none.' }
      : {
          pairs: [
            ['Text', `${terms.textTitle}, number ${terms.textNumber}`],
            ['Signed', signed.join(', ') || 'by nobody'],
            ['Binds who speaks', terms.binds ? 'yes' : 'no'],
            ['Limit of liability', `${terms.cap.words}${terms.cap.cents === null ? '' : `: ${formatUsd(terms.cap.cents)} for this job`}`],
            ['Notice', terms.notice ?? 'no clause'],
            ['Time to claim', terms.claim.clause ?? terms.claim.words],
          ],
        },
    window === null
      ? { text: 'No rule on the time to claim, or no day, is known.' }
      : {
          text: `By law a claim may be brought until ${window.shortUntil} by the short reading and ${window.longUntil} by the long one, counted from ${window.from} (${window.countsFrom}): ${window.sources.join('; ')}. For an attorney to judge.`,
        },
  ];
}

const recordPart = ({ acts, steps }: Found, { supplements }: Around, say: Say): PaperPart[] => [
  { heading: 'Recorded on site' },
  ...table(
    ['When', 'Who', 'What', 'In words'],
    acts.map((a) => [say(a.at), a.by, a.what, a.words]),
  ),
  ...table(
    ['Step', 'Revision', 'Recorded', 'Looked at by, written by', 'When'],
    steps.flatMap((step) => {
      const title = `${step.title}${step.item === null ? '' : ` (${step.item})`}`;
      if (step.entries.length === 0) return [[title, String(step.revisionNumber), 'nothing recorded', '', '']];
      return step.entries.map((e) => [
        title,
        String(step.revisionNumber),
        [
          e.answer,
          e.match === 'outside' ? 'outside the usual range' : e.match === 'differs' ? 'the counts differ' : '',
          e.note ?? '',
          e.correction ? `correction: ${e.correction}` : '',
          e.superseded ? 'replaced later' : '',
        ]
          .filter((word) => word !== '')
          .join('. '),
        e.writtenBy === e.observedBy ? e.observedBy : `${e.observedBy}, ${e.writtenBy}`,
        say(e.observedAt),
      ]);
    }),
  ),
  ...table(
    ['Supplement', 'Who', 'What'],
    supplements.map((s) => [say(s.at), s.by, s.words]),
  ),
];

const reportPart = ({ reports }: Found): PaperPart[] =>
  reports.toReversed().flatMap((r) => [
    {
      heading: `The report, version ${r.version}`,
      pairs: [
        ['Inspected', r.inspectedOn],
        ['Completed', r.completedOn],
        ['Handed over', r.deliveredOn ?? 'no'],
      ] as const,
    },
    ...table(
      ['System', 'Defect'],
      r.summary.map(({ system, text }) => [system, text]),
    ),
    ...table(
      ['System', 'What', 'Said'],
      r.systems.flatMap(({ system, lines }) => lines.map((l) => [system, l.title, `${l.answer}${l.note ? `. ${l.note}` : ''}`])),
    ),
    ...table(
      ['System', 'Not inspected', 'Why'],
      r.notInspected.map((n) => [n.system, n.title, n.why]),
    ),
  ]);

const mailPart = ({ mails }: Around, say: Say): PaperPart[] => [
  { heading: 'Mails' },
  ...(mails.length === 0 ? [{ text: 'None.' }] : []),
  ...table(
    ['When', 'To', 'Subject', 'State'],
    mails.map((m) => [say(m.at), m.to, m.subject, m.state]),
  ),
];

const othersPart = (rows: string[][]): PaperPart[] =>
  rows.length === 0 ? [] : [{ heading: 'Other callbacks of this job' }, ...table(['Number', 'Kind', 'State'], rows)];
