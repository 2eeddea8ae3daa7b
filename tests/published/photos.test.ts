// What a photo says of itself, against the published layouts: the GPS directory of EXIF 2.32 (CIPA DC-008-2019, tag 0x8825), the first
// bytes of the file kinds, also of spoken notes, and great-circle distances.
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { nearProperty, type Place } from '@backsight/domain/sitework/nearby';
import { greatCircleKm } from '@backsight/scheduling/travel';
import { imageKind, positionIn, readImage, saysMore } from '@backsight/usecases/sitework/steps/image';
import { soundKind } from '@backsight/usecases/sitework/steps/sound';
import { gpsBlock, picture, picturedAt } from '../support/pictures.ts';
import { mp4, ogg, webm } from '../support/sounds.ts';

const HOUSE = { lat: 44.03, lon: -88.54 };

describe('where a picture was taken', () => {
  it.each<[string, Place & { error?: number }, object]>([
    ['north and west', HOUSE, { lat: 44.03, lon: -88.54, accuracy: 0 }],
    ['south and east, with its error', { lat: -33.8568, lon: 151.2153, error: 12 }, { lat: -33.8568, lon: 151.2153, accuracy: 12 }],
  ])('is read from the GPS directory: %s', async (_, where, expected) => {
    const found = await positionIn(await picturedAt(where));
    expect(found).toEqual({
      lat: expect.closeTo((expected as Place).lat, 6),
      lon: expect.closeTo((expected as Place).lon, 6),
      accuracy: (expected as { accuracy: number }).accuracy,
    });
  });
  it('is read from the EXIF block of a WebP and a PNG', async () => {
    const gps = { IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '44/1 1/1 48/1', GPSLongitudeRef: 'W', GPSLongitude: '88/1 32/1 24/1' } };
    for (const kind of ['webp', 'png'] as const)
      expect(
        await positionIn(
          await sharp(await picture(kind))
            .withExif(gps)
            .toFormat(kind)
            .toBuffer(),
        ),
        kind,
      ).toMatchObject({
        lat: expect.closeTo(44.03, 6),
        lon: expect.closeTo(-88.54, 6),
      });
  });
  it('is not known without one, without a fix, beyond the poles, and in a damaged block', async () => {
    const cut = await picturedAt(HOUSE);
    cut.fill(0xee, 20, 60);
    const files = [await picture('jpeg'), await picturedAt({ lat: 0, lon: 0 }), await picturedAt({ lat: 95, lon: 10 }), cut];
    for (const file of files) expect(await positionIn(file)).toBeNull();
  });
});

describe('near the property', () => {
  it('measures along the great circle: one minute of latitude is about 1,853 m on the mean sphere', () => {
    // 2 pi x 6,371,008.8 m / 21,600 (mean radius of WGS 84, NGA.STND.0036)
    expect(greatCircleKm({ lat: 44, lon: -88 }, { lat: 44 + 1 / 60, lon: -88 })).toBeCloseTo(1.853_25, 4);
    expect(greatCircleKm({ lat: 0, lon: 179.9 }, { lat: 0, lon: -179.9 })).toBeCloseTo(22.239, 2);
  });
  it.each([
    ['at the house', 0, 0, 'yes'],
    ['190 m away', 190, 0, 'yes'],
    ['210 m away', 210, 0, 'no'],
    ['190 m away, known to 50 m', 190, 50, 'unknown'],
    ['1 km away, known to 50 m', 1000, 50, 'no'],
    ['nowhere, or of a house that is known by its town alone', null, 0, 'unknown'],
  ] as const)('%s', (_, metres, accuracy, near) => expect(nearProperty(metres, accuracy)).toBe(near));
});

describe('a file', () => {
  const of = (original: Buffer, jpeg: Buffer | null = null) =>
    readImage({ original: original.toString('base64'), jpeg: jpeg?.toString('base64') ?? null });
  const HEIC = Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from('ftypheic\0\0\0\0mif1heic', 'latin1')]);

  it('is known by its first bytes, whatever it is called', async () => {
    for (const kind of ['jpeg', 'png', 'webp'] as const) expect(imageKind(await picture(kind))).toBe(kind);
    expect(imageKind(HEIC)).toBe('heic');
    expect(imageKind(Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"/>'))).toBeNull();
  });
  it('becomes a copy of at most 2,000 points, upright, that says nothing besides', async () => {
    const turned = await sharp(await picture('jpeg', 3, 3000, 1500))
      .withMetadata({ orientation: 6 })
      .jpeg()
      .toBuffer();
    for (const file of [await picturedAt(HOUSE), turned, await picture('png'), await picture('webp')]) {
      const read = await of(file);
      if (!read.ok) throw new Error(read.code);
      expect(await saysMore(read.value.copy)).toBe(false);
      expect(await positionIn(read.value.copy)).toBeNull();
      expect(read.value.original.equals(file)).toBe(true);
    }
    const upright = await of(turned);
    expect(upright.ok && (await sharp(upright.value.copy).metadata())).toMatchObject({ width: 1000, height: 2000, format: 'jpeg' });
    expect(await saysMore(await picturedAt(HOUSE))).toBe(true);
  });
  it('is refused in words where it is no photo, damaged, too large, or claims more points than a phone has', async () => {
    const png = await picture('png');
    const bomb = Buffer.from(png);
    bomb.writeUInt32BE(60_000, 16); // width and height of IHDR (ISO/IEC 15948, 11.2.2)
    bomb.writeUInt32BE(60_000, 20);
    bomb.writeUInt32BE(crc32(bomb.subarray(12, 29)), 29);
    const huge = Buffer.alloc(25 * 1024 * 1024 + 1);
    (await picture('jpeg')).copy(huge);
    const cases: [Buffer, Buffer | null, string][] = [
      [Buffer.from('%PDF-1.7 this is no photo'), null, 'site-photo-not-an-image'],
      [(await picture('jpeg', 2, 400, 300)).subarray(0, 900), null, 'site-photo-unreadable'],
      [bomb, null, 'site-photo-too-many-points'],
      [huge, null, 'site-photo-too-large'],
      [HEIC, null, 'site-photo-heic-alone'],
      [HEIC, png, 'site-photo-heic-alone'],
    ];
    for (const [file, jpeg, code] of cases) expect(await of(file, jpeg)).toMatchObject({ ok: false, code });
    expect(await of(HEIC, await picture('jpeg'))).toMatchObject({ ok: true, value: { mediaType: 'image/heic' } });
  });
  it('has its block where the standard puts it: the first directory holds the one tag 0x8825', () => {
    expect(gpsBlock(HOUSE).readUInt16LE(10)).toBe(0x8825);
  });
});

/** CRC-32 of a PNG chunk (ISO/IEC 15948, annex D). */
function crc32(bytes: Buffer): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}

describe('the kind of a sound', () => {
  it.each([
    ['WebM with Opus', webm(), 'webm'],
    ['WebM with a picture beside it', webm(['A_OPUS', 'V_VP8']), null],
    ['Matroska without a sound', webm(['S_TEXT/UTF8']), null],
    ['MP4 with a sound alone', mp4('soun'), 'mp4'],
    ['MP4 that is a film', mp4('soun', 'vide'), null],
    ['HEIC, which begins like MP4', mp4('pict'), null],
    ['Ogg with Opus (RFC 7845, 5.1)', ogg('OpusHead'), 'ogg'],
    ['Ogg with a film (Theora)', ogg('\u0080theora'), null],
    ['a page of HTML that calls itself one', Buffer.from(`<html>OggS OpusHead webm A_OPUS${' '.repeat(99)}`), null],
    ['next to nothing', Buffer.from('OggS'), null],
  ])('is told by its first bytes: %s', (_, bytes, kind) => expect(soundKind(bytes)).toBe(kind));
});
