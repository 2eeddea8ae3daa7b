// Files that are not what they say: by their bytes, never by their name (OWASP File Upload Cheat Sheet; ASVS 5.0, 5.2.2, 5.2.3 and 5.2.6).
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { mediaTypeOf } from '@backsight/usecases/agreements/steps/keepProof';
import { certificateOf } from '@backsight/usecases/people/steps/certificate';
import { imageKind, readImage } from '@backsight/usecases/sitework/steps/image';
import { pdfOf } from '@backsight/usecases/sitework/steps/pdf';
import { readSound } from '@backsight/usecases/sitework/steps/sound';

const text = (words: string): Buffer => Buffer.from(words.padEnd(200));
const NOT_FILES: Record<string, Buffer> = {
  nothing: Buffer.alloc(0),
  'one byte': Buffer.from([0xff]),
  HTML: text('<!doctype html><script>alert(1)</script>'),
  SVG: text('<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"/>'),
  XML: text('<?xml version="1.0"?><!DOCTYPE x [<!ENTITY e SYSTEM "file:///etc/passwd">]><x>&e;</x>'),
  'a script': text('#!/bin/sh\nrm -rf /'),
  'a program': Buffer.concat([Buffer.from('MZ'), Buffer.alloc(300)]),
  'a program for Linux': Buffer.concat([Buffer.from('\u007fELF'), Buffer.alloc(300)]),
  'a ZIP file': Buffer.concat([Buffer.from('PK\u0003\u0004'), Buffer.alloc(300)]),
  'a GIF that is a script': text('GIF89a/*<svg/onload=alert(1)>*/=1;'),
  'a JPEG with a blank before it': Buffer.concat([Buffer.from(' '), Buffer.from([0xff, 0xd8, 0xff, 0xe0]), Buffer.alloc(300)]),
  'HTML that holds a PDF': text('<html><script>alert(1)</script>%PDF-1.7'),
  'HTML that speaks of a JPEG': text('<html>\u00ff\u00d8\u00ff'),
};

describe.each(Object.entries(NOT_FILES))('%s', (_, bytes) => {
  const base64 = bytes.toString('base64');
  it('is no photo, certificate, proof, report or spoken note', async () => {
    expect(imageKind(bytes)).toBeNull();
    expect(await readImage({ original: base64, jpeg: null })).toMatchObject({ ok: false, code: 'site-photo-not-an-image' });
    expect(certificateOf(base64)).toMatchObject({ ok: false, code: 'certificate-kind' });
    expect(mediaTypeOf(bytes)).toBeNull();
    expect(pdfOf(base64)).toMatchObject({ ok: false, code: 'file-not-pdf' });
    expect(readSound(base64)).toMatchObject({ ok: false, code: 'spoken-not-a-sound' });
  });
});

const u32 = (n: number): Buffer => Buffer.from([n >>> 24, (n >> 16) & 255, (n >> 8) & 255, n & 255]);
const u16 = (n: number): Buffer => Buffer.from([n >> 8, n & 255]);
/** A PNG of a few bytes that says that it has so many points (ISO/IEC 15948, 11.2.2). */
async function png(side: number): Promise<Buffer> {
  const small = await sharp({ create: { width: 8, height: 8, channels: 3, background: '#fff' } })
    .png()
    .toBuffer();
  const { crc32 } = await import('node:zlib').then((zlib) => zlib as unknown as { crc32?: (bytes: Buffer) => number });
  const head = Buffer.concat([Buffer.from('IHDR'), u32(side), u32(side), small.subarray(24, 29)]);
  return Buffer.concat([small.subarray(0, 12), head, crc32 ? u32(crc32(head)) : small.subarray(29, 33), small.subarray(33)]);
}
/** The same of a JPEG: its frame header (ITU-T T.81, B.2.2) says another size. */
async function jpeg(side: number): Promise<Buffer> {
  const bytes = await sharp({ create: { width: 8, height: 8, channels: 3, background: '#fff' } })
    .jpeg()
    .toBuffer();
  const frame = bytes.indexOf(Buffer.from([0xff, 0xc0]));
  return Buffer.concat([bytes.subarray(0, frame + 5), u16(side), u16(side), bytes.subarray(frame + 9)]);
}

describe('a picture', () => {
  it.each([
    ['a PNG', png],
    ['a JPEG', jpeg],
  ])('%s of a few bytes and billions of points is not unpacked', async (_, make) => {
    const bytes = await make(60_000);
    expect(bytes.length).toBeLessThan(2000);
    const began = process.cpuUsage();
    const read = await readImage({ original: bytes.toString('base64'), jpeg: null });
    expect(read.ok).toBe(false);
    expect(['site-photo-too-many-points', 'site-photo-unreadable']).toContain(read.ok ? '' : read.code);
    expect(process.cpuUsage(began).user / 1000, 'milliseconds of the processor').toBeLessThan(1500);
  });
  it('that is cut off, or only begins like one, is unreadable, and nothing breaks', async () => {
    const whole = await sharp({ create: { width: 64, height: 64, channels: 3, background: '#a00' } })
      .png()
      .toBuffer();
    for (const bytes of [
      whole.subarray(0, 40),
      Buffer.concat([whole.subarray(0, 33), Buffer.alloc(300, 7)]),
      Buffer.concat([Buffer.from([0xff, 0xd8, 0xff, 0xe0]), text('<script>')]),
    ])
      expect(await readImage({ original: bytes.toString('base64'), jpeg: null })).toMatchObject({
        ok: false,
        code: 'site-photo-unreadable',
      });
  });
  it('with a page behind its picture is shown as a copy that has the picture alone', async () => {
    const picture = await sharp({ create: { width: 32, height: 32, channels: 3, background: '#0a0' } })
      .jpeg()
      .toBuffer();
    const both = Buffer.concat([picture, text('<script>alert(1)</script>')]);
    const read = await readImage({ original: both.toString('base64'), jpeg: null });
    expect(read.ok && read.value.copy.includes('<script>')).toBe(false);
    expect(read.ok && read.value.mediaType).toBe('image/jpeg');
  });
});
