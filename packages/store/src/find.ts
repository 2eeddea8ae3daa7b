// Finding a property, a client, a job, a callback, a step or somebody of the firm by words and numbers. A read across areas: it writes nothing.
import type { Reader } from './database.ts';
import { GOES_TO, JOBS_OF } from './ownJobs.ts';

/** Texts that are searched; migration 0043 has an index of each. */
export const PLACE = (p: string): string => `lower(${p}.address || ' ' || ${p}.town || ' ' || ${p}.zip)`;
export const PARTY = (p: string): string => `lower(${p}.name || ' ' || coalesce(${p}.email, '') || ' ' || coalesce(${p}.phone, ''))`;

/** A parameter as the number of a job, null when it is none. */
export const NUMBER = (typed: string): string => `CASE WHEN ${typed} ~ '^[0-9]{1,9}$' THEN ${typed}::int END`;

/** So many properties and clients that fit are followed to their jobs; who typed less than that gets newer jobs by typing more. */
const FOLLOWED = 300;

/** The word anywhere in a text, for LIKE. */
export const anywhere = (word: string): string => `%${word.toLowerCase().replace(/[\\%_]/g, '\\$&')}%`;

/**
 * Each word as a parameter of its own, because only then all of them are looked up in the index at once; what is missing fits anything. No
 * word at all, or none of three letters and more, which the index could not look up, fits nothing, and the first part then spares the look.
 */
const EACH = ['$1', '$2', '$3', '$4', '$5'];
const fits = (text: string): string => ["$1 <> ''", ...EACH.map((word) => `${text} LIKE ${word}`)].join(' AND ');
const SHORTEST = 3;
const eachOf = (words: readonly string[]): string[] =>
  EACH.map((_, at) => (words.some(({ length }) => length >= SHORTEST) ? (words[at] === undefined ? '%' : anywhere(words[at])) : ''));

/** That a job is one of those to which somebody goes (`only`, else every job is), asked of a few jobs; the person is the parameter after the others. */
const own = (only: string | null, person: string): string => (only === null ? 'true' : GOES_TO('j.id', `${person}::uuid`));
/**
 * All of these jobs, worked out once: years of them would else be gone through again for each house and client that fits. What fits is held
 * against them (IS TRUE): joined to them, each was compared with each.
 */
const mine = (only: string | null, person: string): string =>
  only === null ? '' : `mine AS MATERIALIZED (${JOBS_OF(`${person}::uuid`)}), `;
const propertiesOf = (only: string | null): string =>
  only === null ? 'true' : '(p.id IN (SELECT j.property_id FROM mine m JOIN job j ON j.id = m.job_id)) IS TRUE';
const partiesOf = (only: string | null): string =>
  only === null ? 'true' : '(w.id IN (SELECT x.party_id FROM mine m JOIN job_party x ON x.job_id = m.job_id)) IS TRUE';
const also = (only: string | null): string[] => (only === null ? [] : [only]);

/** Materialized, so that the index is used however few rows are wanted. */
const places = (of = 'true'): string => `places AS MATERIALIZED (SELECT p.id FROM property p WHERE ${fits(PLACE('p'))} AND ${of})`;
/** By their names alone, or by address and number too. */
const parties = (text: string, of = 'true'): string =>
  `parties AS MATERIALIZED (SELECT w.id FROM party w WHERE ${fits(PARTY('w'))} AND ${fits(text)} AND ${of})`;
const BY_NAME = 'lower(w.name)';

const INSPECTED = `(SELECT min(v.starts_at) FROM visit v WHERE v.job_id = j.id AND (v.live OR v.state = 'before'))`;
const NAMES = `(SELECT string_agg(DISTINCT w.name, ', ') FROM job_party x JOIN party w ON w.id = x.party_id WHERE x.job_id = j.id AND x.role = 'client')`;

export type FoundJob = {
  id: string;
  number: number;
  kind: string;
  state: string;
  address: string;
  town: string;
  clients: string | null;
  at: Date | null;
};

/** Clients of one name that are followed to the address of their jobs. */
const OF_ONE_NAME = 3000;

/**
 * Jobs with one of the numbers first, then those of properties and people that hold all words; where there is none, those of people who hold
 * one of the words and whose address holds the rest ('birkholz kingfisher'). Newest first.
 */
export const findJobs = (reader: Reader, { words, numbers, limit, only }: Asked): Promise<FoundJob[]> =>
  reader.rows<FoundJob>(
    `WITH ${mine(only, '$9')}${places(propertiesOf(only))}, ${parties(BY_NAME, partiesOf(only))},
       named AS MATERIALIZED (SELECT w.id FROM party w WHERE ${PARTY('w')} LIKE ANY ($7::text[]) AND NOT EXISTS (SELECT FROM places) AND NOT EXISTS (SELECT FROM parties)),
       found AS (SELECT id FROM job WHERE number = ANY ($6::int[])
         UNION SELECT j.id FROM (SELECT id FROM places LIMIT ${FOLLOWED}) x JOIN job j ON j.property_id = x.id
         UNION SELECT x.job_id FROM (SELECT id FROM parties LIMIT ${FOLLOWED}) y JOIN job_party x ON x.party_id = y.id
         UNION SELECT j.id FROM (SELECT id FROM named LIMIT ${OF_ONE_NAME}) y JOIN job_party x ON x.party_id = y.id JOIN party w ON w.id = y.id
           JOIN job j ON j.id = x.job_id JOIN property p ON p.id = j.property_id WHERE ${fits(`(${PLACE('p')} || ' ' || ${BY_NAME})`)}),
       newest AS (SELECT j.* FROM found f JOIN job j ON j.id = f.id WHERE j.state <> 'lapsed' AND ${own(only, '$9')} ORDER BY (j.number = ANY ($6::int[])) DESC, j.number DESC LIMIT $8::int)
     SELECT j.id::text AS id, j.number, j.kind, j.state, p.address, p.town, ${NAMES} AS clients, ${INSPECTED} AS at FROM newest j JOIN property p ON p.id = j.property_id
     ORDER BY (j.number = ANY ($6::int[])) DESC, j.number DESC`,
    [...eachOf(words), numbers, words.length > 1 ? words.filter((word) => /^\D{3,}$/.test(word)).map(anywhere) : [], limit, ...also(only)],
  );

/** `only`: what belongs to jobs to which this person goes. */
export type Asked = { words: readonly string[]; numbers: readonly number[]; limit: number; only: string | null };
type Near = Pick<Asked, 'limit' | 'only'> & { text: string };
/** `jobId` and `number`: the newest job. */
export type FoundProperty = { id: string; address: string; town: string; jobs: number; jobId: string | null; number: number | null };

const propertyLines = (
  of: string,
): string => `SELECT p.id::text AS id, p.address, p.town, (SELECT count(*)::int FROM job j WHERE j.property_id = p.id AND j.state <> 'lapsed' AND ${of}) AS jobs, n.id::text AS "jobId", n.number
  FROM hit h JOIN property p ON p.id = h.id LEFT JOIN LATERAL (SELECT j.id, j.number FROM job j WHERE j.property_id = p.id AND j.state <> 'lapsed' AND ${of} ORDER BY j.number DESC LIMIT 1) n ON true`;

/** Properties whose address holds every word, those that begin with the first word that was typed first. */
export const findProperties = (reader: Reader, { words, limit, only }: Asked): Promise<FoundProperty[]> =>
  reader.rows<FoundProperty>(
    `WITH ${mine(only, '$7')}${places(propertiesOf(only))}, hit AS (SELECT p.id, p.address FROM (SELECT id FROM places LIMIT ${FOLLOWED}) x JOIN property p ON p.id = x.id
       ORDER BY ${EACH.map((word) => `${PLACE('p')} LIKE substr(${word}, 2)`).join(' OR ')} DESC, p.address LIMIT $6::int) ${propertyLines(own(only, '$7'))} ORDER BY p.address, jobs DESC, p.id`,
    [...eachOf(words), limit, ...also(only)],
  );

/** Properties whose address is likest to what was typed, for words that were spelled otherwise. */
export const nearProperties = (reader: Reader, { text, limit, only }: Near): Promise<FoundProperty[]> =>
  reader.rows<FoundProperty>(
    `WITH ${mine(only, '$3')}hit AS (SELECT p.id, word_similarity($1, ${PLACE('p')}) AS near FROM property p WHERE $1 <% ${PLACE('p')} AND ${propertiesOf(only)} ORDER BY near DESC, p.id LIMIT $2::int) ${propertyLines(own(only, '$3'))} ORDER BY h.near DESC, p.address, jobs DESC, p.id`,
    [text.toLowerCase(), limit, ...also(only)],
  );

export type FoundParty = {
  id: string;
  name: string;
  email: string | null;
  phone: string | null;
  jobs: number;
  jobId: string | null;
  number: number | null;
};

const clientLines = (
  of: string,
): string => `SELECT w.id::text AS id, w.name, w.email, w.phone, (SELECT count(DISTINCT j.id)::int FROM job_party x JOIN job j ON j.id = x.job_id WHERE x.party_id = w.id AND ${of}) AS jobs, n.id::text AS "jobId", n.number
  FROM hit h JOIN party w ON w.id = h.id LEFT JOIN LATERAL (SELECT j.id, j.number FROM job_party x JOIN job j ON j.id = x.job_id WHERE x.party_id = w.id AND j.state <> 'lapsed' AND ${of} ORDER BY j.number DESC LIMIT 1) n ON true`;

/** People outside the firm whose name holds every word; with `reach` also by address of mail or phone. */
export const findParties = (reader: Reader, { words, limit, only }: Asked, reach: boolean): Promise<FoundParty[]> =>
  reader.rows<FoundParty>(
    `WITH ${mine(only, '$7')}${parties(reach ? PARTY('w') : BY_NAME, partiesOf(only))}, hit AS (SELECT w.id FROM (SELECT id FROM parties LIMIT ${FOLLOWED}) x JOIN party w ON w.id = x.id ORDER BY w.name COLLATE "en-x-icu", w.id LIMIT $6::int)
     ${clientLines(own(only, '$7'))} ORDER BY w.name COLLATE "en-x-icu", w.id`,
    [...eachOf(words), limit, ...also(only)],
  );

/** Those whose name is likest to what was typed. */
export const nearParties = (reader: Reader, { text, limit, only }: Near): Promise<FoundParty[]> =>
  reader.rows<FoundParty>(
    `WITH ${mine(only, '$3')}hit AS (SELECT w.id, word_similarity($1, ${PARTY('w')}) AS near FROM party w WHERE $1 <% ${PARTY('w')} AND word_similarity($1, ${BY_NAME}) >= 0.5 AND ${partiesOf(only)} ORDER BY near DESC, w.id LIMIT $2::int) ${clientLines(own(only, '$3'))} ORDER BY h.near DESC, w.name, jobs DESC, w.id`,
    [text.toLowerCase(), limit, ...also(only)],
  );

export type FoundCallback = {
  id: string;
  number: number;
  state: string;
  place: string;
  address: string;
  town: string;
  party: string | null;
  words: string | null;
};

/**
 * Callbacks with one of the numbers first, then open ones, then newest first: at properties and of people that hold all words, or with one of
 * them in what was said and the rest there, at the address or in the name. What was said is read through: of 200,000 jobs 6,000 came back.
 */
export const findCallbacks = (reader: Reader, { words, numbers, limit }: Asked, seeOwnerOnly: boolean): Promise<FoundCallback[]> =>
  reader.rows<FoundCallback>(
    `WITH ${places()}, ${parties(BY_NAME)},
       said AS MATERIALIZED (SELECT c.id, c.job_id, c.party_id, lower(concat_ws(' ', c.place, replace(c.system, '_', ' '), t.body)) AS words FROM callback c LEFT JOIN kept_text t ON t.id = c.text_id WHERE $1 <> ''),
       found AS (SELECT id FROM callback WHERE number = ANY ($6::int[])
         UNION SELECT c.id FROM (SELECT id FROM places LIMIT ${FOLLOWED}) x JOIN job j ON j.property_id = x.id JOIN callback c ON c.job_id = j.id
         UNION SELECT c.id FROM (SELECT id FROM parties LIMIT ${FOLLOWED}) x JOIN job_party y ON y.party_id = x.id JOIN callback c ON c.job_id = y.job_id AND c.party_id = x.id
         UNION SELECT s.id FROM said s JOIN job j ON j.id = s.job_id JOIN property p ON p.id = j.property_id LEFT JOIN party w ON w.id = s.party_id
           WHERE s.words LIKE ANY ($9::text[]) AND ${fits(`concat_ws(' ', s.words, ${PLACE('p')}, ${BY_NAME})`)})
     SELECT c.id::text AS id, c.number, c.state, c.place, p.address, p.town, w.name AS party, t.body AS words
     FROM found f JOIN callback c ON c.id = f.id JOIN job j ON j.id = c.job_id JOIN property p ON p.id = j.property_id LEFT JOIN party w ON w.id = c.party_id LEFT JOIN kept_text t ON t.id = c.text_id
     WHERE $7::boolean OR NOT c.owner_only ORDER BY (c.number = ANY ($6::int[])) DESC, (c.state = 'closed'), c.number DESC LIMIT $8::int`,
    [...eachOf(words), numbers, seeOwnerOnly, limit, words.map(anywhere)],
  );

export type FoundStep = { stepKey: string; procedureId: string; title: string; procedure: string; instruction: string };

/** Steps in force that hold one of the groups of words whole (each a query of stems), those that hold it in their title first. */
export const findSteps = (reader: Reader, query: string, now: Date, limit: number): Promise<FoundStep[]> =>
  reader.rows<FoundStep>(
    `SELECT s.step_key AS "stepKey", r.procedure_id::text AS "procedureId", s.body ->> 'title' AS title, p.title AS procedure, s.body ->> 'instruction' AS instruction
     FROM in_force_period f JOIN procedure_revision r ON r.id = f.revision_id JOIN procedure p ON p.id = r.procedure_id JOIN revision_step s ON s.revision_id = r.id, to_tsquery('english', $1) q
     WHERE f.from_at <= $2::timestamptz AND (f.until_at IS NULL OR f.until_at > $2::timestamptz) AND NOT r.retires AND (s.words || to_tsvector('english', p.title)) @@ q
     ORDER BY ts_rank(s.words, q) DESC, p.position, s.position LIMIT $3::int`,
    [query, now, limit],
  );

export type FoundPerson = { id: string; name: string; roles: string[]; left: boolean };

/** People of the firm by name; those who left come last. */
export const findPeople = (reader: Reader, { words, limit }: Asked, today: string): Promise<FoundPerson[]> =>
  reader.rows<FoundPerson>(
    `SELECT w.id::text AS id, w.name, coalesce(w.ended_on <= $6::date, false) AS left, (SELECT coalesce(array_agg(g.role ORDER BY g.role), '{}') FROM person_role g WHERE g.person_id = w.id) AS roles
     FROM person w WHERE ${fits(BY_NAME)} ORDER BY "left", w.name COLLATE "en-x-icu" LIMIT $7::int`,
    [...eachOf(words), today, limit],
  );
