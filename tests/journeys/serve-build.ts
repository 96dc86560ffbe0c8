import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { preview } from 'vite';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  interface ProvidedContext {
    readonly appUrl: string;
  }
}

/** Builds the app as it ships and serves it on a free port for the journeys. */
export default async function serveBuild(project: TestProject): Promise<() => Promise<void>> {
  const out = mkdtempSync(join(tmpdir(), 'raybend-build-'));
  const { VITEST: _, ...env } = process.env;
  execFileSync('npx', ['vite', 'build', '--outDir', out, '--logLevel', 'warn'], {
    env: { ...env, NODE_ENV: 'production' },
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  const server = await preview({
    configFile: false,
    root: out,
    build: { outDir: out },
    preview: { host: '127.0.0.1', port: 0 },
    logLevel: 'error',
  });
  const url = server.resolvedUrls?.local[0];
  if (url === undefined) throw new Error('The built app could not be served on this machine.');
  project.provide('appUrl', url);
  return async () => {
    await server.close();
    rmSync(out, { recursive: true });
  };
}
