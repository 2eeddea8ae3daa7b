// The first bytes of sound files, laid out by hand from their standards, for what looks at the kind of a file alone.

const filled = (...parts: (string | number[])[]): Buffer =>
  Buffer.concat([...parts.map((part) => (typeof part === 'string' ? Buffer.from(part, 'latin1') : Buffer.from(part))), Buffer.alloc(200)]);
const EBML = [0x1a, 0x45, 0xdf, 0xa3];
const box = (name: string, body: string): string => `\0\0\0${String.fromCharCode(8 + body.length)}${name}${body}`;
const handler = (kind: string): string => box('hdlr', `\0\0\0\0\0\0\0\0${kind}\0\0\0\0`);

/** EBML header with DocType (0x4282) "webm" (RFC 8794, 11.2.4), then CodecIDs (0x86) of its tracks (RFC 9559, 5.1.4.1.21). `seed` makes another file of it. */
export const webm = (codecs: readonly string[] = ['A_OPUS'], seed = 0): Buffer =>
  filled(EBML, [0x9f, 0x42, 0x82, 0x84], 'webm', ...codecs.map((codec) => `\u0086\u0087${codec}`), [seed]);
/** A file type box and one handler box for each track (ISO/IEC 14496-12, 4.3 and 8.4.3). */
export const mp4 = (...kinds: readonly string[]): Buffer => filled(box('ftyp', 'iso5\0\0\0\0'), ...kinds.map(handler));
/** A page header of 27 bytes and one lacing value (RFC 3533, 6), then the first packet. */
export const ogg = (packet: string): Buffer => filled('OggS', new Array(23).fill(0), [19], packet);
