// The stage on which the demo firm lives its weeks: acts of the service in the order of their instants, on any database.
import type { Database, Reader } from '@backsight/store/database';
import type { Outcome } from '@backsight/domain/shared/outcome';
import { createRunner, type Act, type Actor, type Runner } from '@backsight/usecases/run';

export type Stage = {
  now: () => Date;
  reader: Reader;
  runner: Runner;
  newId: () => string;
  /** Runs a use case. @throws Error when it refuses: a script asks only for what is possible */
  act: <I, O>(actor: Actor, act: Act<I, O>, input: I) => Promise<O>;
  /** Does something at a later instant; what would lie after the end of the play never happens. */
  at: (instant: Date, scene: Scene) => void;
};
export type Scene = (stage: Stage) => Promise<void>;

type Waiting = { at: number; order: number; scene: Scene };

/** Value of an outcome. @throws Error with the code and its facts when it is a refusal */
export function valueOf<T>(outcome: Outcome<T>, what: string): T {
  if (outcome.ok) return outcome.value;
  throw new Error(`the demo was refused ${what}: ${outcome.code} ${JSON.stringify(outcome.about)}`);
}

/** Plays scenes in order of time until the end. `newId` makes ids for an instant. */
export function openStage(parts: { database: Database; newId: (at: Date) => string; until: Date; publicUrl: string }): {
  stage: Stage;
  play: () => Promise<number>;
} {
  let clock = new Date(0);
  let order = 0;
  const waiting: Waiting[] = [];
  const newId = () => parts.newId(clock);
  const runner = createRunner({ database: parts.database, clock: () => clock, newId, publicUrl: parts.publicUrl });
  const stage: Stage = {
    now: () => clock,
    reader: parts.database.read,
    runner,
    newId,
    act: async (actor, act, input) => valueOf(await runner.run(act, input, { actor }), `${act.operation} at ${clock.toISOString()}`),
    at: (instant, scene) => {
      if (instant <= parts.until) file(waiting, { at: Math.max(instant.getTime(), clock.getTime()), order: order++, scene });
    },
  };
  const play = async (): Promise<number> => {
    let played = 0;
    for (let next = waiting.pop(); next; next = waiting.pop(), played++) {
      clock = new Date(next.at);
      await next.scene(stage);
    }
    return played;
  };
  return { stage, play };
}

const later = (a: Waiting, b: Waiting): boolean => a.at > b.at || (a.at === b.at && a.order > b.order);

/** Keeps the list sorted, the earliest last. */
function file(waiting: Waiting[], one: Waiting): void {
  let low = 0;
  let high = waiting.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (later(waiting[middle]!, one)) low = middle + 1;
    else high = middle;
  }
  waiting.splice(low, 0, one);
}
