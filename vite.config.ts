import react from '@vitejs/plugin-react';
import { playwright } from '@vitest/browser-playwright';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';
import { findBrowser } from './tests/browser-path.ts';

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

export default defineConfig(async () => {
  const testing = process.env.VITEST !== undefined;
  const browser = testing ? await findBrowser() : null;
  if (browser !== null) Object.assign(process.env, browser.env);
  return {
    root: testing ? '.' : 'src',
    publicDir: testing ? 'public' : '../public',
    base: './',
    plugins: [react(), contentSecurityPolicy],
    worker: { format: 'es' as const },
    server: { fs: { allow: ['..'] } },
    build: { outDir: '../dist', emptyOutDir: true, assetsInlineLimit: 0, target: 'es2022' },
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
        'dicom-parser',
        'fast-png',
        'fflate',
        'jpeg-lossless-decoder-js',
        '@cornerstonejs/codec-charls/decodewasmjs',
        '@cornerstonejs/codec-libjpeg-turbo-8bit/decodewasmjs',
        '@cornerstonejs/codec-openjpeg/decodewasmjs',
        '@cornerstonejs/codec-openjph/wasmjs',
      ],
    },
    resolve: { dedupe: ['react', 'react-dom'] },
    test: {
      projects: [
        {
          extends: true as const,
          test: {
            name: 'unit',
            environment: 'node',
            include: ['tests/**/*.test.ts'],
            exclude: ['tests/**/*.browser.test.*', 'tests/journeys/**'],
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
            include: ['tests/journeys/**/*.test.ts'],
            globalSetup: ['tests/journeys/serve-build.ts'],
            fileParallelism: false,
            testTimeout: 180_000,
            hookTimeout: 120_000,
          },
        },
      ],
    },
  };
});
