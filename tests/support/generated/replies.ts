// Holds replies against the API's own description, by the validator that comes with Fastify (Ajv), which has no part in writing them.
import Fastify from 'fastify';
import type { Schema } from './values.ts';

type Validate = ((value: unknown) => boolean) & { errors?: { instancePath: string; message?: string }[] | null };
type Operation = { responses: Record<string, { content?: Record<string, { schema?: Schema }> }> };

/**
 * The description is JSON Schema 2020-12, the validator reads draft-07: a list of fixed places is `prefixItems` there and `items` here, and what may
 * follow them `items` there and `additionalItems` here (json-schema.org, 2020-12 release notes, "Changes to items and additionalItems").
 */
function asDraft07(schema: unknown): unknown {
  if (Array.isArray(schema)) return schema.map(asDraft07);
  if (typeof schema !== 'object' || schema === null) return schema;
  const { prefixItems, items, ...rest } = Object.fromEntries(Object.entries(schema).map(([key, value]) => [key, asDraft07(value)]));
  if (prefixItems !== undefined) return { ...rest, items: prefixItems, ...(items === undefined ? {} : { additionalItems: items }) };
  return items === undefined ? rest : { ...rest, items };
}

/** What is wrong with a reply: nothing, or words. `status` may be described by its own number or by its hundred. */
export async function repliesOf(document: Schema) {
  const bare = Fastify({
    ajv: { customOptions: { coerceTypes: false, useDefaults: false, removeAdditional: false, strict: false, allErrors: false } },
  });
  let compile: ((schema: Schema) => Validate) | undefined;
  bare.get('/', (request) => {
    compile = (schema) => request.compileValidationSchema(schema) as unknown as Validate;
    return {};
  });
  await bare.inject('/');
  const known = new Map<string, Validate | null>();
  const validator = (path: string, method: string, status: number): Validate | null | undefined => {
    const operation = document['paths'][path]?.[method.toLowerCase()] as Operation | undefined;
    const hundred = `${Math.floor(status / 100)}XX`;
    const key = Object.keys(operation?.responses ?? {}).find((one) => one === String(status) || one.toUpperCase() === hundred);
    if (!operation || !key) return undefined;
    const name = `${method} ${path} ${key}`;
    if (!known.has(name)) {
      const schema = Object.entries(operation.responses[key]!.content ?? {}).find(([type]) => type.includes('json'))?.[1].schema;
      known.set(name, schema ? compile!(asDraft07({ ...schema, components: document['components'] }) as Schema) : null);
    }
    return known.get(name);
  };
  return {
    /** `path` as the description writes it: with {names}. */
    wrongWith: (path: string, method: string, status: number, value: unknown): string | null => {
      const validate = validator(path, method, status);
      if (validate === undefined) return `status ${status} is not described`;
      if (validate === null || validate(value)) return null;
      return (validate.errors ?? []).map(({ instancePath, message }) => `${instancePath || 'reply'} ${message}`).join('; ');
    },
    described: () => [...known.values()].filter((one) => one !== null).length,
    close: () => bare.close(),
  };
}
