// Answers with a paper: shown by the browser, under a name that is the same every time.
import type { FastifyReply } from 'fastify';
import type { PdfFile } from '@backsight/documents/pdf/content';
import type { Outcome } from '@backsight/domain/shared/outcome';

export async function sendPdf(reply: FastifyReply, made: Promise<Outcome<PdfFile>>) {
  const file = await made;
  if (!file.ok) return file;
  reply
    .type('application/pdf')
    .headers({ 'content-disposition': `inline; filename="${file.value.name.replace(/[^\w. -]/g, '_')}"`, 'cache-control': 'no-store' });
  return Buffer.from(file.value.bytes);
}
