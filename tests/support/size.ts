// How much a test does that could do any amount: a part of it each day, all of it with the long tests (npm run test:deep).
const deep = process.env.TEST_DEEP === '1';

/** The first number each day, the second with the long tests. */
export const size = (daily: number, whole: number): number => (deep ? whole : daily);
