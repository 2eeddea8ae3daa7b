// The adapters of the road services against a server that speaks their documented shapes, and against its faults.
import { beforeEach, describe, expect, it } from 'vitest';
import { BlockRefused } from '@backsight/usecases/schedule/fillTravel';
import { roadServiceOf } from '../../../apps/api/src/http/roadService.ts';
import { readConfig, WrongSetting } from '../../../apps/api/src/config.ts';
import { roadServer, type Fault } from '../../support/roadServer.ts';

const server = roadServer();
beforeEach(() => void Object.assign(server, { fault: 'none', asked: [], limit: 100 }));

const [A, B, C] = [
  { lat: 44.03, lon: -88.54 },
  { lat: 44.19, lon: -88.46 },
  { lat: 44.1, lon: -88.7 },
];
const service = (kind: string, more: { url?: string; timeoutMs?: number } = {}) => {
  const config = readConfig({ TRAVEL_SERVICE: kind, TRAVEL_URL: more.url ?? `${server.url}/` }, '/');
  return roadServiceOf({ ...config, travel: { ...config.travel!, timeoutMs: more.timeoutMs ?? 2000 } })!;
};

describe.each(['osrm', 'valhalla'])('%s', (kind) => {
  it('answers whole seconds by row and column', async () => {
    expect(await service(kind).seconds([A!, B!], [B!, C!, A!])).toEqual([
      [600, 601, 602],
      [610, 611, 612],
    ]);
    expect(server.asked).toHaveLength(1);
  });
  it('keeps cells without a way as null', async () => {
    server.fault = 'null cells';
    expect(await service(kind).seconds([A!, B!], [B!, C!])).toEqual([
      [600, null],
      [null, 611],
    ]);
  });
  it('says which roads it answers from, and another address is another engine', async () => {
    const engine = await service(kind).engine(A!);
    expect(engine).toMatch(new RegExp(`^${kind} 2026-10-01.* @[0-9a-f]{8}$`));
    expect(await service(kind, { url: server.url.replace('127.0.0.1', 'localhost') }).engine(A!)).not.toBe(engine);
  });
  it.each<[Fault]>([['too big'], ['no road']])('%s: a smaller question may be answered', async (fault) => {
    server.fault = fault;
    await expect(service(kind).seconds([A!], [B!])).rejects.toThrow(BlockRefused);
  });
  it.each<[Fault, RegExp]>([
    ['status 500', /status 500/],
    ['no json', /no JSON/],
    ['wrong size', /not the size that was asked/],
    ['redirect', /cannot be reached/],
    ['endless', /too long/],
    ['other shape', /not that of|not the size/],
  ])('%s is a fault in words', async (fault, words) => {
    server.fault = fault;
    await expect(service(kind).seconds([A!], [B!, C!])).rejects.toThrow(words);
    expect(server.asked, 'it follows nowhere and does not ask again').toHaveLength(1);
  });
  it('gives up when there is no answer in time', async () => {
    server.fault = 'silent';
    await expect(service(kind, { timeoutMs: 150 }).seconds([A!], [B!])).rejects.toThrow('no answer within 0.15 seconds');
  });
  it('says so when nobody listens', async () => {
    await expect(service(kind, { url: 'http://127.0.0.1:9' }).seconds([A!], [B!])).rejects.toThrow('cannot be reached');
  });
});

it('sends longitude before latitude to OSRM, and both by name to Valhalla', async () => {
  await service('osrm').seconds([A!], [B!]);
  await service('valhalla').seconds([A!], [B!]);
  expect(server.asked[0]).toBe('/table/v1/driving/-88.5400,44.0300;-88.4600,44.1900');
  expect(server.asked[1]).toContain('"sources":[{"lat":44.03,"lon":-88.54}],"targets":[{"lat":44.19,"lon":-88.46}]');
});

describe('the settings of the road service', () => {
  it.each([
    [{ TRAVEL_SERVICE: 'osrm' }, 'TRAVEL_URL'],
    [{ TRAVEL_URL: 'http://roads.example' }, 'TRAVEL_SERVICE'],
    [{ TRAVEL_SERVICE: 'compass', TRAVEL_URL: 'http://roads.example' }, 'TRAVEL_SERVICE'],
    [{ TRAVEL_SERVICE: 'osrm', TRAVEL_URL: 'file:///etc/passwd' }, 'TRAVEL_URL'],
  ])('%j stops the start with one line', (env, name) => {
    expect(() => readConfig(env, '/')).toThrow(WrongSetting);
    expect(() => readConfig(env, '/')).toThrow(name);
  });
  it('none: no service', () => expect(roadServiceOf(readConfig({}, '/'))).toBeNull());
});
