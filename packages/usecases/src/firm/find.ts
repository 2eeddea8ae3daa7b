// The go-to box: what somebody may see, by words and numbers, in one answer.
import type { Role } from '@backsight/domain/people/roles';
import { ROLES } from '@backsight/domain/people/roles';
import { askedWords } from '@backsight/domain/callbacks/tradeWords';
import { JOB_KINDS, JOB_STATES } from '@backsight/domain/jobs/words';
import { pieceAround, readTyped } from '@backsight/domain/shared/typed';
import type { Reader } from '@backsight/store/database';
import * as store from '@backsight/store/find';
import { onlyOwn } from '../jobs/steps/onlyOwn.ts';
import type { Actor } from '../run.ts';
import { localDay } from './steps/localDay.ts';

/** `thing` says where it leads; a property or client with several jobs leads to the list of them ('jobs', by its words). */
export type Found = {
  kind: 'property' | 'client' | 'job' | 'callback' | 'step' | 'person';
  thing: { kind: 'job' | 'jobs' | 'callback' | 'step' | 'person'; id: string; of?: string };
  title: string;
  about: string;
  state: string;
  at: string | null;
};
type Answer = { items: Found[]; near: boolean };

/** Lines of each kind; more words bring fewer. */
const EACH = 5;

/**
 * What somebody may see and the words find: jobs with their houses and clients, to an inspector those that he goes to; steps and people for
 * everybody; how a client is reached and callbacks for the desk; callbacks of the owner alone for the owner. Where nothing has the words as typed, what is spelled nearly so (`near`).
 */
export async function find(reader: Reader, { text, actor, now }: { text: string; actor: Actor; now: Date }): Promise<Answer> {
  const { words, numbers } = readTyped(text);
  const only = onlyOwn(actor);
  const asked = { words, numbers, limit: EACH, only };
  const roles = actor.kind === 'person' ? actor.roles : [];
  const desk = only === null;
  const { today } = await localDay(reader, now);
  const [jobs, properties, clients, callbacks, steps, people] = await Promise.all([
    store.findJobs(reader, asked),
    store.findProperties(reader, asked),
    store.findParties(reader, asked, desk),
    desk ? store.findCallbacks(reader, asked, roles.includes('owner')) : [],
    stepsOf(reader, text, now),
    store.findPeople(reader, asked, today),
  ]);
  const items = [
    ...jobs.map(jobLine),
    ...properties.map(propertyLine),
    ...clients.map((one) => clientLine(one, desk)),
    ...callbacks.map((one) => callbackLine(one, words)),
    ...steps.map((one) => stepLine(one, words)),
    ...people.map(personLine),
  ];
  if (items.length > 0) return { items, near: false };
  const near = await nearly(reader, text.trim(), only);
  return { items: near, near: near.length > 0 };
}

/** Shorter words are like too many others, and numbers are not spelled. */
const SPELLED = 4;

async function nearly(reader: Reader, text: string, only: string | null): Promise<Found[]> {
  if (text.length < SPELLED || !/\p{L}/u.test(text)) return [];
  const near = { text, limit: EACH, only };
  const [properties, clients] = await Promise.all([store.nearProperties(reader, near), store.nearParties(reader, near)]);
  return [...properties.map(propertyLine), ...clients.map((one) => clientLine(one, only === null))];
}

/** Steps with all words, the last perhaps not typed to its end; where there is none, with what the trade says instead. */
async function stepsOf(reader: Reader, text: string, now: Date): Promise<store.FoundStep[]> {
  const typed =
    text
      .toLowerCase()
      .match(/[a-z]{3,}/g)
      ?.slice(0, 5) ?? [];
  if (typed.length === 0) return [];
  const exact = await store.findSteps(
    reader,
    typed.map((word, at) => (at === typed.length - 1 ? `${word}:*` : word)).join(' & '),
    now,
    EACH,
  );
  if (exact.length > 0) return exact;
  const asked = askedWords(text).slice(0, 30);
  const said = [...new Set(asked.map((one) => one.said))];
  const query = said
    .map((one) => `(${asked.flatMap(({ said: of, word }) => (of === one ? [word.split(' ').join(' <-> ')] : [])).join(' | ')})`)
    .join(' & ');
  return query === '' ? [] : store.findSteps(reader, query, now, EACH);
}

const many = (jobs: number): string => (jobs === 0 ? 'no job yet' : jobs === 1 ? '1 job' : `${jobs} jobs`);

const jobLine = ({ id, number, kind, state, address, town, clients, at }: store.FoundJob): Found => ({
  kind: 'job',
  thing: { kind: 'job', id },
  title: `Job ${number}, ${address}, ${town}`,
  about: [JOB_KINDS[kind as keyof typeof JOB_KINDS], clients].filter(Boolean).join(', '),
  state: JOB_STATES[state as keyof typeof JOB_STATES],
  at: at?.toISOString() ?? null,
});

/** To its one job, or to the list of its jobs. */
const toJobs = (jobs: number, jobId: string | null, words: string): Found['thing'] =>
  jobs === 1 && jobId !== null ? { kind: 'job', id: jobId } : { kind: 'jobs', id: words };

const propertyLine = ({ address, town, jobs, jobId, number }: store.FoundProperty): Found => ({
  kind: 'property',
  thing: toJobs(jobs, jobId, address),
  title: `${address}, ${town}`,
  about: jobs > 0 ? `${many(jobs)}, ${jobs === 1 ? '' : 'the newest '}number ${number}` : many(jobs),
  state: '',
  at: null,
});

const clientLine = ({ name, email, phone, jobs, jobId }: store.FoundParty, desk: boolean): Found => ({
  kind: 'client',
  thing: toJobs(jobs, jobId, name),
  title: name,
  about: [many(jobs), ...(desk ? [phone, email] : [])].filter(Boolean).join(', '),
  state: '',
  at: null,
});

const callbackLine = ({ id, number, state, place, address, town, party, words }: store.FoundCallback, typed: readonly string[]): Found => ({
  kind: 'callback',
  thing: { kind: 'callback', id },
  title: [`Callback ${number}`, place, address, town].filter(Boolean).join(', '),
  about: [party, pieceAround(words ?? '', typed)].filter(Boolean).join(': '),
  state: state === 'closed' ? 'closed' : 'open',
  at: null,
});

const stepLine = ({ stepKey, procedureId, title, procedure, instruction }: store.FoundStep, typed: readonly string[]): Found => ({
  kind: 'step',
  thing: { kind: 'step', id: procedureId, of: stepKey },
  title,
  about: `${procedure}: ${pieceAround(instruction, typed)}`,
  state: '',
  at: null,
});

const personLine = ({ id, name, roles, left }: store.FoundPerson): Found => ({
  kind: 'person',
  thing: { kind: 'person', id },
  title: name,
  about: left ? 'no longer here' : roles.map((role) => ROLES[role as Role]).join(', '),
  state: '',
  at: null,
});
