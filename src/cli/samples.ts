import { resolve } from 'node:path';
import { writeInvented } from './invented-files.ts';
import { SAMPLES, sampleFilm } from './sample-list.ts';

const directory = resolve(import.meta.dirname, '../../sample-images');

for (const sample of SAMPLES) {
  const files = await writeInvented(directory, sampleFilm(sample), sample);
  console.log(files.join('\n'));
}
