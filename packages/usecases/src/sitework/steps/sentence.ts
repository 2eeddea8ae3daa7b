// A refusal as its plain sentence, where several are answered at once.
import { refusalLine } from '@backsight/domain/refusals';
import type { Refusal } from '@backsight/domain/shared/outcome';

export const sentenceOf = (refusal: Refusal): string =>
  refusalLine(refusal.code).sentence.replace(/\{(\w+)\}/g, (_, name: string) => String(refusal.about[name] ?? ''));
