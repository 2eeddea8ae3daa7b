// A sealed site record as a work paper: what was done besides the steps, every entry system by system, what came after the seal.
import type { Block } from '../pdf/content.ts';

export type RecordLine = { step: string; answer: string; by: string; at: string; revision: string };
/** `jpeg`: null where there is none to show, which the words say. */
export type PhotoLine = { what: string; words: string; jpeg: Uint8Array | null };
export type RecordPaper = {
  job: number;
  address: string;
  /** Name and times on site. */
  people: readonly { name: string; times: string }[];
  ended: string;
  sealed: string;
  fingerprint: string;
  holds: boolean;
  acts: readonly { at: string; by: string; what: string; words: string }[];
  systems: readonly { system: string; lines: readonly RecordLine[] }[];
  photos: readonly PhotoLine[];
  /** Spoken notes, each in a line of words. */
  spoken: readonly string[];
  supplements: readonly { at: string; by: string; text: string }[];
  givenOut: readonly { at: string; by: string; to: string }[];
};

export const recordBlocks = (record: RecordPaper): Block[] => [
  { kind: 'notice', words: 'Work paper of the firm. It is not the inspection report and goes out only by an act of the owner.' },
  {
    kind: 'facts',
    pairs: [
      ['Property', record.address],
      ['Job', String(record.job)],
      ...record.people.map(({ name, times }) => ['On site', `${name}: ${times}`] as const),
      ['Visit ended', record.ended],
      ['Sealed', record.sealed],
      ['Fingerprint', record.fingerprint],
      ['Seal', record.holds ? 'holds: nothing was changed since' : 'DOES NOT HOLD: something is not as it was when it was sealed'],
    ],
  },
  { kind: 'heading', level: 2, words: 'The visit as a whole' },
  record.acts.length === 0
    ? { kind: 'text', words: 'Nothing besides the steps was recorded.' }
    : {
        kind: 'table',
        heads: ['When', 'Who', 'What', 'In words'],
        rows: record.acts.map(({ at, by, what, words }) => [at, by, what, words]),
      },
  ...record.systems.flatMap(({ system, lines }): Block[] => [
    { kind: 'heading', level: 2, words: system },
    {
      kind: 'table',
      heads: ['Step', 'Recorded', 'Looked at by', 'When', 'Revision'],
      rows: lines.map(({ step, answer, by, at, revision }) => [step, answer, by, at, revision]),
    },
  ]),
  ...photoBlocks(record.photos),
  ...(record.spoken.length === 0 ? [] : [{ kind: 'heading', level: 2, words: 'Spoken notes' } as const]),
  ...record.spoken.map((words): Block => ({ kind: 'text', words, small: true })),
  { kind: 'heading', level: 2, words: 'Supplements' },
  record.supplements.length === 0
    ? { kind: 'text', words: 'None.' }
    : { kind: 'table', heads: ['When', 'Who', 'What'], rows: record.supplements.map(({ at, by, text }) => [at, by, text]) },
  ...(record.givenOut.length === 0
    ? []
    : [
        { kind: 'heading', level: 2, words: 'Given out' } as const,
        { kind: 'table', heads: ['When', 'By', 'To'], rows: record.givenOut.map(({ at, by, to }) => [at, by, to]) } as const,
      ]),
];

/** Points on paper of a small picture. */
const WIDTH = 170;

const photoBlocks = (photos: readonly PhotoLine[]): Block[] =>
  photos.length === 0
    ? []
    : [
        { kind: 'heading', level: 2, words: 'Photos' },
        ...photos.map(({ what, words, jpeg }): Block => {
          const caption = `${what}. ${words}`;
          return jpeg
            ? { kind: 'picture', png: jpeg, alt: `Photo: ${what}`, width: WIDTH, caption }
            : { kind: 'text', words: caption, small: true };
        }),
      ];
