// Keys that the browser makes for its requests, as the service takes them.
import { expect, it } from 'vitest';
import { keyWith, newId } from '../../../apps/web/src/api/ids.ts';

it.each(['2027-04-12T13:15:00.000Z', '2027-04-12T08:15:00.000-05:00', 'no'])(
  'a key with %s in it is one that the service takes',
  (more) => {
    const key = newId();
    expect(keyWith(key, more)).toMatch(/^[\w-]{8,100}$/);
    expect(keyWith(key, more)).not.toBe(keyWith(key, `${more}1`));
  },
);
