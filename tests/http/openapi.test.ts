// The description of the API is OpenAPI 3.1 and tells of every route of the contract.
// Fields and rules checked here are those of the OpenAPI Specification 3.1.1 (spec.openapis.org/oas/v3.1.1).
import { beforeAll, describe, expect, it } from 'vitest';
import type { Route } from '@backsight/contract/route';
import { allRoutes, nameOf } from '../support/contracts.ts';
import { testApi } from '../support/http.ts';

type Operation = {
  operationId?: string;
  summary?: string;
  tags?: string[];
  description?: string;
  parameters?: { name: string; in: string; required?: boolean }[];
  requestBody?: { content: Record<string, { schema: unknown }> };
  responses: Record<
    string,
    { description?: string; content?: Record<string, { schema: { properties?: Record<string, unknown>; $ref?: string } }> }
  >;
};

const api = testApi();
let document: { openapi: string; info: { title: string; version: string }; paths: Record<string, Record<string, Operation>> };
let routes: Route[];

beforeAll(async () => {
  document = (await api.send('nobody', 'GET', '/api/openapi.json')).body;
  routes = await allRoutes();
});

const operationOf = (route: Route): Operation | undefined =>
  document.paths[route.path.replace(/:(\w+)/g, '{$1}')]?.[route.method.toLowerCase()];
const operations = (): [string, Operation][] =>
  Object.entries(document.paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]): [string, Operation] => [`${method} ${path}`, operation]),
  );

describe('/api/openapi.json', () => {
  it('is version 3.1 and names the service', () => {
    expect(document.openapi).toMatch(/^3\.1\./);
    expect(document.info).toMatchObject({ title: 'Backsight', version: expect.any(String) });
  });
  it('tells of every route of the contract, and of no other', () => {
    expect(operations().length).toBe(routes.length);
    expect(routes.filter((route) => operationOf(route) === undefined).map(nameOf)).toEqual([]);
  });
  it('gives each its own operationId, a summary and its area', () => {
    const ids = operations().map(([, o]) => o.operationId);
    expect(ids.filter((id, at) => !id || ids.indexOf(id) !== at)).toEqual([]);
    expect(
      operations()
        .filter(([, o]) => !o.summary || o.tags?.length !== 1)
        .map(([name]) => name),
    ).toEqual([]);
  });
  it('declares every parameter of a path as required, and every body', () => {
    const wrong = routes.filter((route) => {
      const operation = operationOf(route);
      const named = [...route.path.matchAll(/:(\w+)/g)].map(([, name]) => name);
      const declared = (operation?.parameters ?? []).filter((p) => p.in === 'path' && p.required).map((p) => p.name);
      return (
        named.some((name) => !declared.includes(name!)) ||
        (route.body !== undefined) !== (operation?.requestBody?.content['application/json']?.schema !== undefined)
      );
    });
    expect(wrong.map(nameOf)).toEqual([]);
  });
  it('describes the reply of success and the problem of refusal', () => {
    const wrong = routes.filter((route) => {
      const responses = operationOf(route)?.responses ?? {};
      const success = responses[route.creates ? '201' : '200'];
      const problem = Object.values(responses['4XX']?.content ?? responses['4xx']?.content ?? {})[0]?.schema;
      return !success || !problem?.properties?.title || Object.values(responses).some((r) => r.description === undefined);
    });
    expect(wrong.map(nameOf)).toEqual([]);
  });
  it('holds no reference that leads nowhere', () => {
    const text = JSON.stringify(document);
    const nowhere = [...text.matchAll(/"\$ref":"#\/([^"]+)"/g)].filter(
      ([, ref]) => ref!.split('/').reduce<unknown>((at, key) => (at as Record<string, unknown> | undefined)?.[key], document) === undefined,
    );
    expect(nowhere.map(([, ref]) => ref)).toEqual([]);
  });
});
