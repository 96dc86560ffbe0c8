import { injuryOf } from '../case/fixed-records.ts';
import type { WholeCase } from './keeper.ts';

/** Hands a file to the browser to save; nothing is sent anywhere. */
export function download(name: string, content: Blob): void {
  const url = URL.createObjectURL(content);
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

/** The user's own label as the name of a file, without what file systems do not take. */
export function fileNameOf({ state }: Pick<WholeCase, 'state'>): string {
  const label = injuryOf(state.document)
    .label.replace(/[^\p{L}\p{N} _-]/gu, '')
    .trim();
  return label === '' ? 'raybend case' : label;
}
