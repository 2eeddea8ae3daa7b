// How a reply becomes bytes: held against the schema of its route, so that nothing else of a row ever leaves, and written as JSON.
import type { FastifySerializerCompiler } from 'fastify';
import { ResponseSerializationError } from 'fastify-type-provider-zod';
import { safeParse, type $ZodType } from 'zod/v4/core';

/**
 * Replies are held against their schema in the direction of reading: none has a codec, so that it comes to the same as the library's own way,
 * which walks every object twice. @throws ResponseSerializationError for a reply that its schema does not know
 */
export const replyCompiler: FastifySerializerCompiler<$ZodType> =
  ({ schema, method, url }) =>
  (data) => {
    const held = safeParse(schema, data);
    if (held.success) return JSON.stringify(held.data);
    throw new ResponseSerializationError(method, url, { cause: held.error as never });
  };
