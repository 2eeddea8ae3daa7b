// A connection that is given up when the server does not answer in time: a network that swallows what is sent never says so.
import pg from 'pg';

/** Ending it politely would wait for what it is still asked. */
type Line = { connection: { stream: { destroy(): void } } };
type Ask = (...given: unknown[]) => unknown;

/** The class of such connections for a pool. Whatever waits on one for `ms` milliseconds fails as on a broken connection, and the pool makes a new one. */
export function patient(ms: number): typeof pg.Client {
  return class extends pg.Client {
    constructor(config?: pg.ClientConfig) {
      super(config);
      const ask = this.query.bind(this) as unknown as Ask;
      this.query = ((...given: unknown[]) => {
        const timer = setTimeout(() => (this as unknown as Line).connection.stream.destroy(), ms);
        const done = given.at(-1);
        if (typeof done === 'function')
          return ask(...given.slice(0, -1), (...answer: unknown[]) => {
            clearTimeout(timer);
            (done as Ask)(...answer);
          });
        const answer = ask(...given);
        if (answer instanceof Promise) return answer.finally(() => clearTimeout(timer));
        clearTimeout(timer);
        return answer;
      }) as unknown as typeof this.query;
    }
  };
}
