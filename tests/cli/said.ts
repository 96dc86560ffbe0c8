import { vi } from 'vitest';

/** Takes what a command prints: standard output as one text, standard error as another. */
export function listen(): { readonly out: () => string; readonly error: () => string } {
  const out: string[] = [];
  const error: string[] = [];
  vi.spyOn(console, 'log').mockImplementation((line: string) => void out.push(line));
  vi.spyOn(console, 'error').mockImplementation((line: string) => void error.push(line));
  return { out: () => out.join('\n'), error: () => error.join('\n') };
}
