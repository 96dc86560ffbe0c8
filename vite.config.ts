import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { playwright } from '@vitest/browser-playwright';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';
import { findBrowser } from './tests/browser-path.ts';
import { LongestFirst } from './tests/longest-first.ts';

/** The one style element that react-aria-components adds: touch-action on what can be pressed. */
const REACT_ARIA_STYLE = "'sha256-38RhXrc7EdReTKsOm23ZPOCUgniTUUcjky8QOOrQx6o='";

/** Scripts and connections from the app's own files only; WebAssembly is needed by the film codecs. */
const CONTENT_SECURITY_POLICY = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "connect-src 'self'",
  "img-src 'self' blob: data:",
  `style-src 'self' ${REACT_ARIA_STYLE}`,
  "font-src 'self'",
  "worker-src 'self' blob:",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "object-src 'none'",
].join('; ');

/** The development server needs inline scripts, so the policy is written at build only. */
const contentSecurityPolicy: Plugin = {
  name: 'raybend-content-security-policy',
  apply: 'build',
  transformIndexHtml: () => [
    {
      tag: 'meta',
      attrs: { 'http-equiv': 'Content-Security-Policy', content: CONTENT_SECURITY_POLICY },
      injectTo: 'head-prepend',
    },
  ],
};

/** Licences ask that their notices go wherever the build goes. */
const thirdPartyNotices: Plugin = {
  name: 'raybend-third-party-notices',
  apply: 'build',
  generateBundle() {
    this.emitFile({
      type: 'asset',
      fileName: 'third-party.md',
      source: readFileSync('docs/third-party.md', 'utf8'),
    });
  },
};

const SERVICE_WORKER = 'service-worker.js';

/** Gives the service worker the list of every file of the build, and a version that changes with any of them. */
const precacheList: Plugin = {
  name: 'raybend-precache-list',
  apply: 'build',
  enforce: 'post',
  generateBundle(_options, bundle) {
    const worker = bundle[SERVICE_WORKER];
    if (worker?.type !== 'chunk') return;
    const built = Object.keys(bundle).filter((file) => file !== SERVICE_WORKER && !file.endsWith('.map'));
    const copied = readdirSync('public');
    const files = ['./', ...built, ...copied].sort();
    const hash = createHash('sha256');
    for (const file of built) {
      const output = bundle[file];
      hash.update(file).update(output?.type === 'asset' ? output.source : (output?.code ?? ''));
    }
    for (const file of copied) hash.update(file).update(readFileSync(`public/${file}`));
    const version = hash.digest('hex').slice(0, 16);
    worker.code = worker.code.replaceAll('__PRECACHE__', JSON.stringify({ version, files }));
  },
};

const wholePath = (path: string) => fileURLToPath(new URL(path, import.meta.url));

const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };

export default defineConfig(async () => {
  const testing = process.env.VITEST !== undefined;
  const browser = testing ? await findBrowser() : null;
  if (browser !== null) Object.assign(process.env, browser.env);
  return {
    root: testing ? '.' : 'src',
    publicDir: testing ? 'public' : '../public',
    base: './',
    define: { __RAYBEND_VERSION__: JSON.stringify(version) },
    plugins: [react(), contentSecurityPolicy, thirdPartyNotices, precacheList],
    worker: { format: 'es' as const },
    server: { fs: { allow: ['..'] } },
    build: {
      outDir: '../dist',
      emptyOutDir: true,
      assetsInlineLimit: 0,
      target: 'es2022',
      rolldownOptions: {
        // Whole paths: the build looks for them from here, the development server from `src`.
        input: {
          app: wholePath('src/index.html'),
          'service-worker': wholePath('src/workers/service-worker.ts'),
        },
        output: {
          entryFileNames: ({ name }: { name: string }) =>
            name === 'service-worker' ? SERVICE_WORKER : 'assets/[name]-[hash].js',
        },
      },
    },
    optimizeDeps: {
      include: [
        'react',
        'react-dom/client',
        // The parts of Konva that are used; the whole of it is half as large again.
        'konva/lib/Core.js',
        'konva/lib/shapes/Circle.js',
        'konva/lib/shapes/Image.js',
        'konva/lib/shapes/Line.js',
        'konva/lib/shapes/Rect.js',
        'konva/lib/shapes/Text.js',
        'cornerstone-core',
        ...(testing ? ['axe-core', 'fast-check'] : []),
        'react-aria-components',
        // Found in workers and behind dynamic imports too late: the server would load the page again.
        'comlink',
        'mathjs',
        'd3-array',
        'd3-shape',
        'idb',
        'zod',
        'zustand',
        'zustand/vanilla',
        'dcmjs',
        'pdf-lib',
        '@pdf-lib/fontkit',
        'jstat',
        'dicom-parser',
        'fast-png',
        'fflate',
        '@cornerstonejs/codec-charls/decodewasmjs',
        '@cornerstonejs/codec-libjpeg-turbo-8bit/decodewasmjs',
        '@cornerstonejs/codec-openjpeg/decodewasmjs',
        '@cornerstonejs/codec-openjph/wasmjs',
      ],
    },
    resolve: { dedupe: ['react', 'react-dom'] },
    test: {
      // The hunt in tests/fuzz only waits for another process; a second worker goes on meanwhile.
      maxWorkers: 2,
      sequence: { sequencer: LongestFirst },
      projects: [
        {
          extends: true as const,
          test: {
            name: 'unit',
            environment: 'node',
            include: ['tests/**/*.test.ts'],
            exclude: ['tests/**/*.browser.test.*', 'tests/journeys/**', 'tests/reliability/**'],
            testTimeout: 30_000,
          },
        },
        {
          extends: true as const,
          test: {
            name: 'browser',
            include: ['tests/**/*.browser.test.{ts,tsx}'],
            testTimeout: 30_000,
            browser: {
              enabled: true,
              headless: true,
              screenshotFailures: false,
              provider: playwright({
                launchOptions: {
                  executablePath: browser?.executablePath ?? '',
                  args: [...(browser?.args ?? [])],
                },
              }),
              instances: [{ browser: 'chromium' as const }],
            },
          },
        },
        {
          extends: true as const,
          test: {
            name: 'journeys',
            environment: 'node',
            include: ['tests/{journeys,reliability}/**/*.test.ts'],
            globalSetup: ['tests/journeys/serve-build.ts'],
            testTimeout: 180_000,
            hookTimeout: 120_000,
            // What is polled for comes when the machine has time for it.
            expect: { poll: { timeout: 60_000 } },
          },
        },
      ],
    },
  };
});
