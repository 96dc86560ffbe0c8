import { expect, it } from 'vitest';
import { inTurn } from '../../src/app/in-turn.ts';
import { openFiles } from '../../src/app/open-files.ts';
import { caseId } from '../../src/case/document.ts';
import { freshState } from '../../src/case/history.ts';
import { failure } from '../../src/geometry/result.ts';
import { caseOf } from '../case/samples.ts';
import { said, shellWith } from './support.ts';

it('files that are dropped while a case comes onto the screen are for that case', async () => {
  const shell = shellWith(caseOf(), {
    decoder: { lookInside: async () => failure({ kind: 'decoder-stopped', detail: 'no picture' }) },
  });
  let ready: () => void = () => undefined;
  // As at the first start, where the sample case takes the place of an empty one.
  const coming = inTurn(shell, async () => {
    await new Promise<void>((done) => {
      ready = done;
    });
    shell.store.setState({ caseState: freshState({ ...caseOf(), id: caseId('the-sample') }) });
  });
  const opened = openFiles(shell, [new File(['no film'], 'one.dcm')], { hand: 'injured', day: null });
  await new Promise((done) => setTimeout(done));
  ready();
  await coming;
  await opened;
  expect(said(shell)).toHaveLength(1);
  expect(said(shell)[0]).toMatch(/one\.dcm.*no picture/);
});
