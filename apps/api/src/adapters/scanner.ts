// A scanner for harmful files: the INSTREAM command of clamd (ClamAV manual, clamd(8)): lengths of four bytes before each piece, zero at the end.
import net from 'node:net';

export type Verdict = 'clean' | 'harmful';
const PIECE = 64 * 1024;
const WAIT_MS = 30_000;

/** Asks the scanner at tcp://HOST:PORT about a file. @throws Error when it cannot be reached, takes too long or answers anything but a verdict */
export const scannerAt =
  (address: string, waitMs = WAIT_MS) =>
  async (bytes: Buffer): Promise<Verdict> => {
    const { hostname, port } = new URL(address);
    const said = await asked(hostname.replace(/^\[|\]$/g, ''), Number(port), bytes, waitMs);
    if (/: OK$/.test(said)) return 'clean';
    if (/ FOUND$/.test(said)) return 'harmful';
    throw new Error('The scanner gave no verdict.');
  };

function asked(host: string, port: number, bytes: Buffer, waitMs: number): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = '';
    const socket = net.connect({ host, port }, () => {
      socket.write('zINSTREAM\0');
      for (let at = 0; at < bytes.length; at += PIECE) {
        const piece = bytes.subarray(at, at + PIECE);
        socket.write(lengthOf(piece.length));
        socket.write(piece);
      }
      socket.write(lengthOf(0));
    });
    socket.setTimeout(waitMs, () => socket.destroy(new Error('The scanner took too long.')));
    socket.setEncoding('utf8');
    socket.on('data', (part: string) => (said += part));
    socket.on('error', reject);
    socket.on('close', () => resolve(said.replace(/\0[^]*$/, '').trim()));
  });
}

function lengthOf(n: number): Buffer {
  const four = Buffer.alloc(4);
  four.writeUInt32BE(n);
  return four;
}
