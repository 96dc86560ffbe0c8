import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createLogger, createServer } from 'vite';
import { afterAll, expect, it, vi } from 'vitest';

const cacheDir = mkdtempSync(join(tmpdir(), 'raybend-start-'));
afterAll(() => {
  vi.unstubAllEnvs();
  rmSync(cacheDir, { recursive: true, force: true });
});

it('starts without a complaint where it never ran before', async () => {
  // The configuration asks whether tests run; this server is what `npm start` opens.
  vi.stubEnv('VITEST', undefined);
  const complaints: string[] = [];
  const hear = (message: string) => void complaints.push(message);
  const quiet = { ...createLogger('silent'), warn: hear, warnOnce: hear, error: hear };
  const server = await createServer({ cacheDir, customLogger: quiet, server: { port: 0 } });
  await server.listen();
  // Ends once the packages that the pages need have been looked for.
  await server.environments.client.depsOptimizer?.scanProcessing;
  await server.close();
  expect(complaints).toEqual([]);
});
