import { useCallback, useState } from 'react';
import { createRoot, type Root } from 'react-dom/client';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { recordId } from '../../../src/case/document.ts';
import { failure, success } from '../../../src/geometry/result.ts';
import type { Rectangle } from '../../../src/ui/film-tools/part-drawing.ts';
import { LeavingSheet } from '../../../src/ui/leaving/LeavingSheet.tsx';
import type { Covered, LeavingActions, LeavingChoice } from '../../../src/ui/leaving/leaving.ts';

const FILM = recordId('film-1');

const SNAPSHOT: LeavingChoice = {
  kind: 'snapshot',
  picture: { films: [FILM], part: 'whole', marks: true, labels: true, words: true, ground: 'paper' },
  format: 'png',
  withPicture: true,
  beside: null,
  withName: false,
  withDay: true,
  language: 'en',
  clinicWords: '',
  table: 'readings',
  object: 'report',
  identity: 'without',
};

const NO_PICTURE = 'No picture can be made of it.';

function Shown({ findText }: Pick<LeavingActions, 'findText'>) {
  const [covered, setCovered] = useState<Covered>(new Map());
  const cover = useCallback(
    (id: typeof FILM, areas: readonly Rectangle[]) => setCovered((before) => new Map(before).set(id, areas)),
    [],
  );
  const [actions] = useState<LeavingActions>(() => ({
    findText,
    prepare: async () => ({ ready: false, sentence: NO_PICTURE }),
    still: async () => null,
  }));
  return (
    <LeavingSheet
      choice={SNAPSHOT}
      onChoice={() => undefined}
      films={[{ id: FILM, number: 1, sentence: 'Lateral view.', invented: false }]}
      chosen={FILM}
      besides={[]}
      isMagnified={false}
      caseName=""
      covered={covered}
      onCovered={cover}
      actions={actions}
      onClose={() => undefined}
    />
  );
}

let root: Root;
let host: HTMLElement;

beforeEach(() => {
  host = document.createElement('main');
  document.body.append(host);
  root = createRoot(host);
});

afterEach(() => {
  root.unmount();
  host.remove();
});

/** What the sheet says once it has stopped looking. */
async function saidAfter(findText: LeavingActions['findText']): Promise<string> {
  root.render(<Shown findText={findText} />);
  await expect.poll(() => document.body.textContent).toContain(NO_PICTURE);
  return document.body.textContent ?? '';
}

const coverButton = () =>
  [...document.querySelectorAll('button')].find((button) => button.textContent === 'Cover text');

describe('looking for text', () => {
  it('says what it found', async () => {
    expect(await saidAfter(async () => success([]))).toContain('Film 1: no text found, nothing covered.');
    expect(coverButton()).toBeDefined();
  });

  it('says of a film without pixels that nothing was looked for', async () => {
    const said = await saidAfter(async () => failure({ kind: 'no-pixels' }));
    expect(said).toMatch(/Film 1: its pixels are not here.*Open its file again/);
    expect(said).not.toContain('no text found');
    expect(coverButton()).toBeUndefined();
  });

  it('ends where the search breaks off, says so, and lets text be covered by hand', async () => {
    const said = await saidAfter(() => Promise.reject(new Error('out of memory')));
    expect(said).toMatch(/Film 1: looking for text broke off.*Cover it yourself/);
    expect(said).not.toContain('Looking for text in the film');
    expect(coverButton()).toBeDefined();
  });
});
