// Tag: time, any day.
// Photos and spoken notes of the site record over HTTP: what is taken in and what is not, who may look, what the seal waits for and what it names.
import { createHash, randomUUID } from 'node:crypto';
import fs from 'node:fs/promises';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { MemberRecord, NewEntry } from '@backsight/contract/sitework';
import { saysMore } from '@backsight/usecases/sitework/steps/image';
import { loadRecord } from '@backsight/usecases/sitework/steps/loadRecord';
import { sealOf } from '@backsight/usecases/sitework/steps/sealText';
import { CAST, type CastName } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { flat, readPdf } from '../../support/pdf.ts';
import { picture, picturedAt } from '../../support/pictures.ts';
import { webm } from '../../support/sounds.ts';
import { siteJob } from '../../support/siteJob.ts';
import { withStarter } from '../../support/starter.ts';
import { fileCalls } from './files.ts';
import { act, answer, does, enter, recordOf, start, stepOf } from './support.ts';

const api = testApi();
withStarter(api);
/** Where a test's service keeps its files. */
const DIRECTORY = '/nowhere';
const PLATE = 'water-heater-data-plate';
const sha = (bytes: Buffer): string => createHash('sha256').update(bytes).digest('hex');

let jobId: string;
let id: string;
let other: string;
/** An entry of Anna's that names one photo, and the photo. */
let entryId: string;
const photo = randomUUID();

const filed = () => api.database.read.rows<{ sha: string }>('SELECT sha256 AS sha FROM stored_file ORDER BY 1');
const { send, look, photosFor, speak, hear, spokenFor } = fileCalls(api, () => id);

/** One of the pair records a step with photos; answers the entry's id. */
async function records(
  record: MemberRecord,
  who: CastName,
  stepKey: string,
  photos: string[],
  more: Partial<NewEntry> = {},
): Promise<string> {
  const entry = answer(stepOf(record, stepKey), who, { photos, ...more });
  const { body } = await enter(api, who, record.id, [entry]);
  expect(body.results[0]).toMatchObject({ stored: true });
  return entry.id;
}

beforeAll(async () => {
  const job = await siteJob(api);
  jobId = job.jobId;
  await api.database.read.rows(`UPDATE property SET place_by = 'exact' RETURNING 1`);
  id = await start(api, job.visitId);
  other = await start(api, (await siteJob(api, { pair: ['cora', 'dan'] })).visitId, 'cora');
  const record = await recordOf(api, 'anna', id);
  entryId = await records(record, 'anna', PLATE, [photo], { evidence: { kind: 'photo' } });
});

describe('a photo of a step', () => {
  it('is asked for, or the reason why there is none', async () => {
    const record = await recordOf(api, 'ben', id);
    const bare = answer(stepOf(record, 'panel-inside-photo'), 'ben', { evidence: { kind: 'photo' } });
    expect((await enter(api, 'ben', id, [bare])).body.results[0]).toMatchObject({
      stored: false,
      code: 'entry-photo-missing',
      field: 'photos',
    });
  });

  it('is on its way until it comes, and the partner reads from whose phone', async () => {
    expect((await photosFor('ben'))[photo]).toMatchObject({ state: 'on_its_way', by: CAST.anna.id, entries: [entryId], near: null });
    expect((await look('ben', photo)).status).toBe(404);
  });

  it('is refused in words where it cannot be taken, and nothing is left behind', async () => {
    const jpeg = await picture('jpeg');
    const before = await filed();
    const cases: [Promise<{ status: number; body: { code: string } }>, number, string][] = [
      [send('anna', { id: photo, entryId, file: Buffer.from('%PDF-1.7 no photo at all') }), 422, 'site-photo-not-an-image'],
      [send('anna', { id: photo, entryId, file: jpeg.subarray(0, 200) }), 422, 'site-photo-unreadable'],
      [send('anna', { id: randomUUID(), entryId, file: jpeg }), 422, 'photo-not-announced'],
      [send('anna', { id: photo, entryId: randomUUID(), file: jpeg }), 422, 'photo-not-announced'],
      [send('cora', { id: photo, entryId, file: jpeg, record: other }), 422, 'photo-not-announced'],
      [send('ben', { id: photo, entryId, file: jpeg }), 403, 'photo-of-another'],
      [send('cora', { id: photo, entryId, file: jpeg }), 403, 'not-on-this-visit'],
      [send('owner', { id: photo, entryId, file: jpeg }), 403, 'not-on-this-visit'],
    ];
    for (const [sent, status, code] of cases) {
      const answered = await sent;
      expect([answered.status, answered.body.code]).toEqual([status, code]);
    }
    expect(await filed()).toEqual(before);
  });

  it('is stored once, however often it is sent; original and copy by their fingerprints, readable by the service alone', async () => {
    const file = await picturedAt({ lat: 44.0301 + Math.random() / 10_000, lon: -88.54 }); // no file of an earlier run
    const sent = await send('anna', { id: photo, entryId, file });
    expect(sent).toMatchObject({ status: 201, body: { id: photo, near: 'yes', nearLimitM: 200 } });
    expect((await send('anna', { id: photo, entryId, file })).body).toEqual(sent.body);
    expect((await send('anna', { id: photo, entryId, file: await picture('jpeg', 9) })).body.code).toBe('photo-id-used');
    const here = (await photosFor('ben'))[photo]!;
    expect(here).toMatchObject({ state: 'here', near: 'yes', originalSha256: sha(file), mayLook: true });
    const copy = await look('ben', photo);
    expect([copy.status, copy.headers['content-type'], sha(copy.bytes)]).toEqual([200, 'image/jpeg', here.copySha256]);
    expect(await saysMore(copy.bytes)).toBe(false);
    expect((await look('ben', photo, '?size=small')).bytes.subarray(0, 2)).toEqual(Buffer.from([0xff, 0xd8]));
    const { mode } = await fs.stat(path.join(DIRECTORY, 'files', sha(file)));
    expect(mode & 0o777).toBe(0o600);
    const rows = await api.database.read.rows<Record<string, unknown>>('SELECT * FROM site_photo');
    expect(rows).toHaveLength(1);
    expect(JSON.stringify(rows)).not.toMatch(/44\.03|88\.54/);
  });

  it('is kept by a correction, which adds what was taken anew', async () => {
    const record = await recordOf(api, 'anna', id);
    const again = randomUUID();
    const corrects = { entryId, why: 'looked_again' } as const;
    await records(record, 'anna', PLATE, [photo, again], { evidence: { kind: 'photo' }, corrects });
    const shown = await photosFor('anna');
    expect(shown[photo]!.entries).toHaveLength(2);
    expect(shown[again]).toMatchObject({ state: 'on_its_way' });
    const far = await send('anna', { id: again, entryId: shown[again]!.entries[0]!, file: await picturedAt({ lat: 44.2, lon: -88.5 }, 4) });
    expect(far.body).toMatchObject({ near: 'no' });
  });
});

describe('who may look', () => {
  it('is who may read the record; photos of a partner check wait for the own answer, those of somebody hurt for the owner', async () => {
    const record = await recordOf(api, 'ben', id);
    const [blind, hurt, said] = [randomUUID(), randomUUID(), randomUUID()];
    const checked = record.steps.find(({ partnerCheck }) => partnerCheck)!;
    const first = await records(record, 'ben', checked.stepKey, [blind], { spoken: [said] });
    const injury = act(record, 'ben', { do: 'damage', what: 'injury', safety: false }, { note: 'A cut hand.' }, { photos: [hurt] });
    expect((await enter(api, 'ben', id, [injury])).body.results[0]).toMatchObject({ stored: true });
    expect((await speak('ben', { id: said, entryId: first, file: webm() })).status).toBe(201);
    await send('ben', { id: blind, entryId: first, file: await picture('png', 5) });
    await send('ben', { id: hurt, entryId: injury.id, file: await picture('webp', 6) });
    expect((await photosFor('anna'))[blind]).toBeUndefined();
    expect((await look('anna', blind)).status).toBe(404);
    expect([(await spokenFor('anna')).has(said), (await hear('anna', said)).status]).toEqual([false, 404]);
    await records(record, 'anna', checked.stepKey, []);
    expect((await photosFor('anna'))[blind]).toMatchObject({ state: 'here', near: 'unknown' });
    expect((await spokenFor('anna')).get(said)).toMatchObject({ state: 'here', seconds: 11 });
    expect((await hear('anna', said)).status).toBe(200);
    expect((await photosFor('anna'))[hurt]).toMatchObject({ state: 'here', mayLook: false });
    const seen = async (who: CastName, which: string) => (await look(who, which)).status;
    expect([await seen('anna', hurt), await seen('lead', hurt), await seen('ben', hurt), await seen('owner', hurt)]).toEqual([
      403, 403, 200, 200,
    ]);
    expect([await seen('anna', blind), await seen('lead', blind), await seen('cora', blind), await seen('office', blind)]).toEqual([
      200, 200, 403, 403,
    ]);
  });

  it('of an original is an owner who says why, for a quarter of an hour; it is kept for ever', async () => {
    const base = `/api/records/${id}/photos/${photo}`;
    const why = { id: randomUUID(), reason: 'Asked for by the attorney' };
    const open = (who: CastName) => api.send(who, 'POST', `${base}/openings`, { body: why });
    const fetched = (who: CastName, opening = why.id) => api.send(who, 'GET', `${base}/original?opening=${opening}`);
    expect((await open('anna')).status).toBe(403);
    expect((await fetched('owner')).body.code).toBe('photo-original-reason');
    expect((await open('owner')).status).toBe(201);
    const original = await fetched('owner');
    expect([original.status, sha(original.bytes)]).toEqual([200, (await photosFor('anna'))[photo]!.originalSha256]);
    expect((await fetched('second')).body.code).toBe('photo-original-reason');
    api.clock.now = new Date(api.clock.now.getTime() + 16 * 60_000);
    expect((await fetched('owner')).body.code).toBe('photo-original-reason');
    const [row] = await api.database.read.rows<{ n: number }>(
      `SELECT count(*)::int AS n FROM audit_row WHERE operation = 'sitework.open-original' AND details ->> 'photo' = '${photo}'`,
    );
    expect(row!.n).toBe(1);
  });
});

describe('a spoken note', () => {
  const [note, other1] = [randomUUID(), randomUUID()];
  let entry: string;

  it('stands for the written one, is on its way until it comes, and is refused in words where it cannot be taken', async () => {
    const record = await recordOf(api, 'anna', id);
    const step = record.steps.find(({ evidence, partnerCheck }) => evidence.kind === 'note' && !partnerCheck)!;
    const silent = answer(step, 'anna', { note: null });
    expect((await enter(api, 'anna', id, [silent])).body.results[0]).toMatchObject({ stored: false, code: 'entry-note-missing' });
    entry = await records(record, 'anna', step.stepKey, [], { note: null, spoken: [note] });
    expect((await spokenFor('ben')).get(note)).toMatchObject({ state: 'on_its_way', by: CAST.anna.id, seconds: null });
    expect((await hear('anna', note)).status).toBe(404);
    const before = await filed();
    const cases: [Promise<{ status: number; body: { code: string } }>, number, string][] = [
      [speak('anna', { id: note, entryId: entry, file: await picture('jpeg') }), 422, 'spoken-not-a-sound'],
      [speak('anna', { id: note, entryId: entry, file: webm(['A_OPUS', 'V_VP9']) }), 422, 'spoken-not-a-sound'],
      [speak('anna', { id: note, entryId: entry, file: Buffer.concat([webm(), Buffer.alloc(2 * 1024 * 1024)]) }), 422, 'spoken-too-large'],
      [speak('anna', { id: other1, entryId: entry, file: webm() }), 422, 'photo-not-announced'],
      [speak('anna', { id: photo, entryId, file: webm() }), 422, 'photo-not-announced'],
      [send('anna', { id: note, entryId: entry, file: await picture('jpeg') }), 422, 'photo-not-announced'],
      [speak('ben', { id: note, entryId: entry, file: webm() }), 403, 'photo-of-another'],
      [speak('cora', { id: note, entryId: entry, file: webm() }), 403, 'not-on-this-visit'],
    ];
    for (const [sent, status, code] of cases) {
      const answered = await sent;
      expect([answered.status, answered.body.code]).toEqual([status, code]);
    }
    expect(await filed()).toEqual(before);
  });

  it('is stored once as it was recorded, heard by who may read the record, and is no photo', async () => {
    const file = webm(['A_OPUS'], 7);
    const sent = await speak('anna', { id: note, entryId: entry, file });
    expect(sent).toMatchObject({ status: 201, body: { id: note } });
    expect((await speak('anna', { id: note, entryId: entry, file })).body).toEqual(sent.body);
    expect((await speak('anna', { id: note, entryId: entry, file: webm(['A_OPUS'], 8) })).body.code).toBe('photo-id-used');
    expect((await spokenFor('ben')).get(note)).toMatchObject({ state: 'here', seconds: 11, sha256: sha(file), entries: [entry] });
    const heard = await hear('lead', note);
    expect([heard.status, heard.headers['content-type'], sha(heard.bytes)]).toEqual([200, 'audio/webm', sha(file)]);
    expect([(await hear('ben', note)).status, (await hear('office', note)).status, (await look('anna', note)).status]).toEqual([
      200, 403, 404,
    ]);
    const opening = { body: { id: randomUUID(), reason: 'Asked for' } };
    expect((await api.send('owner', 'POST', `/api/records/${id}/photos/${note}/openings`, opening)).status).toBe(404);
  });
});

describe('the seal', () => {
  const [late, last, said] = [randomUUID(), randomUUID(), randomUUID()];
  let damage: string;

  it('waits for photos that are on their way, in the database too, until they come or are said to be lost', async () => {
    const record = await recordOf(api, 'anna', id);
    const entry = act(
      record,
      'anna',
      { do: 'damage', what: 'damage', safety: false },
      { note: 'A cracked tile.' },
      { photos: [late, last] },
    );
    await enter(api, 'anna', id, [entry]);
    damage = entry.id;
    const step = record.steps.find(({ evidence, partnerCheck, who }) => evidence.kind === 'confirm' && !partnerCheck && who === 'either')!;
    const spoken = await records(record, 'anna', step.stepKey, [], { spoken: [said] });
    const like = (original: string, seconds: number) =>
      api.database.read.rows(`INSERT INTO site_photo (id, record_id, entry_id, original_sha256, seconds, taken_by, taken_at, recorded_at)
        SELECT '${said}', record_id, '${spoken}', ${original}, ${seconds}, taken_by, taken_at, recorded_at FROM site_photo WHERE id = '${photo}' RETURNING 1`);
    await expect(like('original_sha256', 11)).rejects.toThrow(/spoken_not_a_sound/);
    await expect(like(`(SELECT sha256 FROM stored_file WHERE media_type = 'audio/webm' LIMIT 1)`, 181)).rejects.toThrow(/is_one_kind/);
    await api.send('anna', 'POST', `/api/records/${id}/end`, { body: { endedAs: 'stopped_by_client' } });
    const missing = (await recordOf(api, 'anna', id)).missing.filter(({ kind }) => kind === 'photo');
    expect(missing.map(({ ref, person }) => [ref, person])).toEqual([late, last, said].map((one) => [one, CAST.anna.id]));
    expect((await api.send('anna', 'POST', `/api/records/${id}/seal`, { body: {} })).body.code).toBe('record-has-gaps');
    await expect(api.database.read.rows(`UPDATE site_record SET state = 'sealed' WHERE id = '${id}' RETURNING 1`)).rejects.toThrow(
      /photo_on_its_way/,
    );
    await does(api, 'anna', id, { do: 'photo_lost', photo: late, why: 'phone_gone' });
    await does(api, 'anna', id, { do: 'photo_lost', photo: said, why: 'phone_gone' });
    const [visit] = (await api.send('office', 'GET', `/api/jobs/${jobId}/site-visits`)).body;
    expect(visit.photos).toEqual({ here: 4, onTheirWay: 1 });
    expect((await photosFor('ben'))[late]).toMatchObject({ state: 'lost', lost: 'the phone is lost or broken' });
  });

  it('follows by itself with the last photo where it was asked for; it names the photos by their fingerprints and takes none afterwards', async () => {
    expect((await api.send('anna', 'POST', `/api/records/${id}/seal`, { body: { whenSent: true } })).body).toMatchObject({ sha256: null });
    expect((await send('anna', { id: last, entryId: damage, file: await picture('jpeg', 8) })).status).toBe(201);
    expect((await send('anna', { id: late, entryId: damage, file: await picture('jpeg', 7) })).body.code).toBe('record-sealed');
    const sealed = (await api.send('lead', 'GET', `/api/records/${id}/sealed`)).body;
    expect(sealed.seal.holds).toBe(true);
    expect(sealed.openings).toMatchObject([{ photoId: photo, by: 'Olive Owner', reason: 'Asked for by the attorney' }]);
    const loaded = (await loadRecord(api.database.read, id))!;
    expect(sealOf(loaded)).toBe(sealed.seal.sha256);
    const changed = { copySha256: '0', originalSha256: '0', nearProperty: 'no', takenBy: '0', entryId: '0', seconds: 1 } as const;
    for (const [column, value] of Object.entries(changed))
      expect(sealOf({ ...loaded, photos: loaded.photos.map((row) => ({ ...row, [column]: value })) }), column).not.toBe(sealed.seal.sha256);
  });

  it('is had on paper with small pictures; a file that is missing is said', async () => {
    const here = (await photosFor('anna'))[photo]!;
    await fs.rm(path.join(DIRECTORY, 'files', here.copySha256!));
    expect((await look('anna', photo)).body.code).toBe('photo-file-missing');
    const answered = await api.send('lead', 'GET', `/api/records/${id}/paper`);
    const paper = flat((await readPdf(answered.bytes)).pages.join(' '));
    expect(paper).toContain('taken within 200 m of the property: yes');
    expect(paper).toContain('The file is missing on the service, or is not what it was.');
    expect(paper).toContain('The photo will not come: the phone is lost or broken.');
    expect(paper).toContain('Damage or injury. With the owner.');
    expect(paper).toContain('11 seconds, May 12, 2026, 10:12 AM, by Anna Inspector.');
    expect(paper).toContain('It will not come: the phone is lost or broken.');
  });

  it('shows the photos in the evidence of a callback, those of somebody hurt to the owner alone', async () => {
    const [row] = await api.database.read.rows<{ id: string }>(`SELECT id FROM callback WHERE job_id = '${jobId}' AND NOT owner_only`);
    const evidence = async (who: CastName) => (await api.send(who, 'GET', `/api/callbacks/${row!.id}/evidence`)).body;
    const [{ photos: leads, spoken }, { photos: owners }] = [await evidence('lead'), await evidence('owner')];
    expect(spoken.map(({ seconds }: { seconds: number | null }) => seconds)).toEqual(expect.arrayContaining([11, null]));
    expect(owners.length).toBe(leads.length + 1);
    expect(leads.find((one: { id: string }) => one.id === photo)).toMatchObject({ about: null, near: 'yes', by: 'Anna Inspector' });
    expect(leads.find((one: { id: string }) => one.id === late)).toMatchObject({ about: 'Damage or injury', takenAt: null });
  });
});
