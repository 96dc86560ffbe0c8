import type { Shell } from './shell.ts';
export async function saveSnapshot(_shell: Shell, _format: 'png' | 'svg') {}
