// Small pictures for tests, with what cameras write beside them: the GPS directory is laid out by hand from its standard.
import sharp from 'sharp';

type Where = { lat: number; lon: number; error?: number };

/** A striped picture; its bytes differ by `seed`. */
export const picture = (kind: 'jpeg' | 'png' | 'webp', seed = 1, width = 64, height = 48): Promise<Buffer> =>
  sharp({ create: { width, height, channels: 3, background: { r: (seed * 53) % 256, g: (seed * 97) % 256, b: seed % 256 } } })
    .toFormat(kind)
    .toBuffer();

/** A JPEG that says where it was taken: an APP1 segment (ITU-T T.81 B.2.4.6) with EXIF right after the start of the image. */
export async function picturedAt(where: Where, seed = 1): Promise<Buffer> {
  const jpeg = await picture('jpeg', seed);
  const body = Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), gpsBlock(where)]);
  const head = Buffer.from([0xff, 0xe1, 0, 0]);
  head.writeUInt16BE(body.length + 2, 2);
  return Buffer.concat([jpeg.subarray(0, 2), head, body, jpeg.subarray(2)]);
}

const ASCII = 2;
const LONG = 4;
const RATIONAL = 5;
type Entry = { tag: number; type: number; count: number; value: Buffer };

/**
 * A TIFF block, little-endian (TIFF 6.0, section 2), whose first directory points with tag 0x8825 to the GPS directory (EXIF 2.32, CIPA
 * DC-008-2019, 4.6.3 and 4.6.6): 1 and 3 say N or S and E or W, 2 and 4 degrees, minutes and seconds, 0x1F the error in metres.
 */
export function gpsBlock({ lat, lon, error }: Where): Buffer {
  const gps: Entry[] = [
    { tag: 0x01, type: ASCII, count: 2, value: Buffer.from(lat < 0 ? 'S\0' : 'N\0', 'latin1') },
    { tag: 0x02, type: RATIONAL, count: 3, value: degrees(Math.abs(lat)) },
    { tag: 0x03, type: ASCII, count: 2, value: Buffer.from(lon < 0 ? 'W\0' : 'E\0', 'latin1') },
    { tag: 0x04, type: RATIONAL, count: 3, value: degrees(Math.abs(lon)) },
    ...(error === undefined ? [] : [{ tag: 0x1f, type: RATIONAL, count: 1, value: rationals([[error, 1]]) }]),
  ];
  const pointer = (at: number): Entry => ({ tag: 0x8825, type: LONG, count: 1, value: Buffer.from(Uint32Array.of(at).buffer) });
  const first = 8 + 2 + 12 + 4;
  const header = Buffer.from([0x49, 0x49, 42, 0, 8, 0, 0, 0]);
  return Buffer.concat([header, directory([pointer(first)], 8), directory(gps, first)]);
}

const rationals = (pairs: readonly (readonly [number, number])[]): Buffer => {
  const bytes = Buffer.alloc(pairs.length * 8);
  for (const [at, [above, below]] of pairs.entries()) {
    bytes.writeUInt32LE(above, at * 8);
    bytes.writeUInt32LE(below, at * 8 + 4);
  }
  return bytes;
};

/** Degrees, minutes and ten-thousandths of seconds. */
function degrees(value: number): Buffer {
  const whole = Math.floor(value);
  const minutes = Math.floor((value - whole) * 60);
  const seconds = Math.round(((value - whole) * 60 - minutes) * 60 * 10_000);
  return rationals([
    [whole, 1],
    [minutes, 1],
    [seconds, 10_000],
  ]);
}

/** Values of up to four bytes stand in the entry, longer ones behind the directory. */
function directory(entries: readonly Entry[], at: number): Buffer {
  const table = Buffer.alloc(2 + entries.length * 12 + 4);
  table.writeUInt16LE(entries.length, 0);
  const behind: Buffer[] = [];
  let free = at + table.length;
  for (const [n, { tag, type, count, value }] of entries.entries()) {
    const to = 2 + n * 12;
    table.writeUInt16LE(tag, to);
    table.writeUInt16LE(type, to + 2);
    table.writeUInt32LE(count, to + 4);
    if (value.length <= 4) value.copy(table, to + 8);
    else {
      table.writeUInt32LE(free, to + 8);
      behind.push(value);
      free += value.length;
    }
  }
  return Buffer.concat([table, ...behind]);
}
