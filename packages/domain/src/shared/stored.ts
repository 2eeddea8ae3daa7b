// Shapes of the stored JSON that every area shares: applies-when rules and property facts.
import { z } from 'zod';
import type { Applicability } from './applicability.ts';
import { FACTS } from './facts.ts';
import type { FactDefinition, FactKey, PropertyFacts } from './facts.ts';
import { checkRule } from './rule-check.ts';

const DEEPEST = 6;
const MOST_NODES = 50;

const factKeySchema = z.enum(Object.keys(FACTS) as [FactKey, ...FactKey[]]);
const text = z.string().min(1).max(100);
const comparisonSchema = z.enum(['is', 'isOneOf', 'atLeast', 'atMost', 'below', 'above', 'includes']);
const valueSchema = z.union([z.number(), text, z.boolean(), z.array(text).max(MOST_NODES)]);

const nodeSchema: z.ZodType<Applicability> = z
  .lazy(() =>
    z.union(
      [
        z.strictObject({ always: z.literal(true) }),
        z.strictObject({ all: z.array(nodeSchema).min(1).max(MOST_NODES) }),
        z.strictObject({ any: z.array(nodeSchema).min(1).max(MOST_NODES) }),
        z.strictObject({ not: nodeSchema }),
        z.strictObject({ fact: factKeySchema, compare: comparisonSchema, value: valueSchema }),
        z.strictObject({ service: text }),
        z.strictObject({ seasonFrom: text, seasonTo: text }),
        z.strictObject({ fromDay: text }),
      ],
      {
        error:
          'This is not an applies-when rule: expected always, all, any, not, a fact compared with a value, a service, a season or a day.',
      },
    ),
  )
  .meta({ id: 'AppliesWhen' });

const childrenOf = (node: unknown): unknown[] => {
  if (typeof node !== 'object' || node === null) return [];
  const { all, any, not } = node as { all?: unknown; any?: unknown; not?: unknown };
  return [...(Array.isArray(all) ? all : []), ...(Array.isArray(any) ? any : []), ...(not === undefined ? [] : [not])];
};

/** Level by level rather than by recursion: input of any depth is measured without exhausting the stack. */
const sizeProblem = (rule: unknown): string | undefined => {
  let level = [rule];
  let nodes = 0;
  for (let depth = 1; level.length > 0; depth += 1) {
    nodes += level.length;
    if (depth > DEEPEST) return `A rule may be nested at most ${DEEPEST} deep.`;
    if (nodes > MOST_NODES) return `A rule may have at most ${MOST_NODES} parts.`;
    level = level.flatMap(childrenOf);
  }
  return undefined;
};

/** A rule as it comes from a form or from the database: bounded in size, and sensible against the catalogue of facts. */
export const applicabilitySchema = z.preprocess(
  (input, context) => {
    const problem = sizeProblem(input);
    if (problem) context.addIssue({ code: 'custom', message: problem });
    return input;
  },
  nodeSchema.superRefine((rule, context) => {
    for (const message of checkRule(rule)) context.addIssue({ code: 'custom', message });
  }),
);

/** Bathrooms and stories are counted in halves in the trade; everything else is whole. */
const HALVES: readonly string[] = ['bathrooms', 'stories'];

const noTwice = (options: readonly string[]): boolean => new Set(options).size === options.length;

const factSchema = (key: string, definition: FactDefinition): z.ZodType => {
  if (definition.type === 'yesNo') return z.boolean();
  if (definition.type === 'number') {
    return z
      .number()
      .min(definition.min)
      .max(definition.max)
      .multipleOf(HALVES.includes(key) ? 0.5 : 1);
  }
  const option = z.enum(Object.keys(definition.options));
  return definition.type === 'choice' ? option : z.array(option).max(40).refine(noTwice, 'An option may be named once.');
};

type FactShape = { [K in FactKey]: z.ZodOptional<z.ZodType<NonNullable<PropertyFacts[K]>>> };

const factShape = Object.fromEntries(
  Object.entries(FACTS).map(([key, definition]) => [key, factSchema(key, definition).optional()]),
) as FactShape;

/** Known facts of a property; a fact that is absent is not known yet, and a fact that the catalogue lacks is refused. */
export const propertyFactsSchema = z.strictObject(factShape);
