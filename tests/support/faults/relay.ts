// A relay between two programs on this machine, which can cut, stall and delay what passes, or lose the answers.
import net from 'node:net';

type Pair = { client: net.Socket; server: net.Socket; asked: number };

export type Relay = {
  port: number;
  /** Where new connections lead; a server that comes back on another port keeps its address here. */
  to: (port: number) => void;
  /** Breaks every connection that there is; answers how many. New ones pass. */
  cut: () => number;
  /** From now on nothing passes, on old connections and on new ones, and nothing is closed. */
  stall: () => void;
  /** Every piece is handed on so many milliseconds later. */
  delay: (ms: number) => void;
  /** The next answers do not arrive: what was asked passes, and the connection breaks when the server replies. */
  loseAnswers: (many: number) => void;
  /** The first piece that each new connection sends is handed on as `change` makes it. */
  changeFirst: (change: (piece: Buffer) => Buffer) => void;
  /** Lets everything pass again; what was stalled goes on. */
  pass: () => void;
  /** What it did so far. */
  done: { connections: number; cuts: number; stalls: number; lost: number };
  close: () => Promise<void>;
};

const after = (ms: number, work: () => void): unknown => (ms > 0 ? setTimeout(work, ms) : work());

/** Listens on a free port of the loopback. */
export async function startRelay(target: number): Promise<Relay> {
  const pairs = new Set<Pair>();
  const done = { connections: 0, cuts: 0, stalls: 0, lost: 0 };
  const state = { target, stalled: false, ms: 0, toLose: 0, first: (piece: Buffer) => piece };
  const end = (pair: Pair) => {
    pairs.delete(pair);
    for (const socket of [pair.client, pair.server]) socket.destroy();
  };
  const server = net.createServer((client) => {
    done.connections += 1;
    const pair: Pair = { client, server: net.connect(state.target, '127.0.0.1'), asked: 0 };
    pairs.add(pair);
    for (const socket of [client, pair.server]) {
      socket.setNoDelay(true);
      socket.on('error', () => end(pair)).on('close', () => after(state.ms, () => end(pair)));
      if (state.stalled) socket.pause();
    }
    client.on('data', (piece) => {
      const handed = pair.asked++ === 0 ? state.first(piece) : piece;
      after(state.ms, () => pair.server.write(handed));
    });
    pair.server.on('data', (piece) => {
      if (state.toLose > 0 && pair.asked > 0) {
        state.toLose -= 1;
        done.lost += 1;
        return end(pair);
      }
      after(state.ms, () => client.write(piece));
    });
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const flow = (how: 'pause' | 'resume') => pairs.forEach((pair) => [pair.client, pair.server].forEach((socket) => socket[how]()));
  return {
    port: (server.address() as net.AddressInfo).port,
    to: (port) => void (state.target = port),
    cut: () => {
      const many = pairs.size;
      done.cuts += many;
      for (const pair of pairs) end(pair);
      return many;
    },
    stall: () => {
      done.stalls += 1;
      state.stalled = true;
      flow('pause');
    },
    delay: (ms) => void (state.ms = ms),
    changeFirst: (change) => void (state.first = change),
    loseAnswers: (many) => void (state.toLose += many),
    pass: () => {
      Object.assign(state, { stalled: false, ms: 0, toLose: 0 });
      flow('resume');
    },
    done,
    close: async () => {
      for (const pair of pairs) end(pair);
      await new Promise((resolve) => server.close(resolve));
    },
  };
}
