import { outcomesOf, type Tried } from './outcomes.ts';

// Started by shared-out.ts: one share of the films comes in, what came of it goes out.
process.once('message', (share) => process.send?.(outcomesOf(share as Tried)));
