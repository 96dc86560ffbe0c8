import { chmodSync } from 'node:fs';
import { join } from 'node:path';
import { defineConfig, type Plugin } from 'vite';

const OUT = 'dist-cli';

/** `npx raybend` runs the file itself. */
const executable: Plugin = {
  name: 'raybend-executable',
  writeBundle: ({ dir }) => chmodSync(join(dir ?? OUT, 'raybend.js'), 0o755),
};

/** The command line for Node. Packages stay where npm put them: it runs from a checkout. */
export default defineConfig({
  publicDir: false,
  plugins: [executable],
  build: {
    ssr: 'src/cli/raybend.ts',
    outDir: OUT,
    emptyOutDir: true,
    target: 'node20',
    rolldownOptions: { output: { banner: '#!/usr/bin/env node' } },
  },
});
