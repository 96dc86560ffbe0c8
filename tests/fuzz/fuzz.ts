import { parseArgs } from 'node:util';
import { hunt } from './hunt.ts';

/** `npm run fuzz -- --count 10000`: hostile files on demand. Ends with 1 where one of them does harm. */

const { values } = parseArgs({
  options: {
    count: { type: 'string', default: '1000' },
    seed: { type: 'string', default: '20251125' },
    from: { type: 'string', default: '0' },
  },
});

const { files, verdicts, slowest, megabytes, failures } = await hunt({
  seed: Number(values.seed),
  from: Number(values.from),
  count: Number(values.count),
  milliseconds: Number.POSITIVE_INFINITY,
  tell: (failure) => console.error(failure),
});
for (const [verdict, count] of Object.entries(verdicts).sort(([, one], [, other]) => other - one)) {
  console.log(`${String(count).padStart(6)}  ${verdict}`);
}
console.log(
  `${files} files; the slowest ${Math.round(slowest.milliseconds)} ms (${slowest.number}, ${slowest.name}); at most ${Math.round(megabytes)} MB`,
);
process.exitCode = failures.length > 0 ? 1 : 0;
