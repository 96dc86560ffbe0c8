import { describe, expect, it, vi } from 'vitest';
import { findFilms } from '../../../src/app/films/find-films.ts';
import { foundActions } from '../../../src/app/films/found-actions.ts';
import { caseShown, type Shell } from '../../../src/app/shell.ts';
import { markedFilms } from '../../../src/case/film-marks.ts';
import { failure, success } from '../../../src/geometry/result.ts';
import { caseOf, film } from '../../case/samples.ts';
import { dicomFile, filmElements } from '../../film/dicom-file.ts';
import { openFilm } from '../../film/open.ts';
import { withoutCanvas } from '../no-canvas.ts';
import { said, shellWith } from '../support.ts';

const ONTO = { hand: 'injured', day: null } as const;

/** Small pictures that were made and not given back. */
const pictures = withoutCanvas();

const bytes = dicomFile(filmElements());

interface Waits {
  /** Before bytes are kept: while films are on their way into the case. */
  keep?: () => Promise<void>;
  /** Before a film is decoded. */
  decode?: () => Promise<void>;
}

/** A shell whose decoder takes every file for one film, the same one. */
function shellThat({ keep, decode }: Waits): Shell {
  return shellWith(caseOf(), {
    keeper: {
      keep: () => undefined,
      keepFilm: async () => keep?.(),
      list: async () => [],
    },
    decoder: {
      lookInside: async ({ name, bytes: inside }: { name: string; bytes: Uint8Array }) =>
        success({ films: [{ name, bytes: inside }], leftOut: [] }),
      patientKey: async () => success(null),
      decode: async () => {
        await decode?.();
        return success(await openFilm(bytes));
      },
    },
  });
}

const file = (name: string, content: readonly BlobPart[] = [bytes.slice()]) => ({
  name,
  file: new File([...content], name),
});

const dropped = (fromFolder: boolean, ...files: readonly ReturnType<typeof file>[]) => ({
  files,
  fromFolder,
  cutShort: false,
});

const find = (shell: Shell, what: ReturnType<typeof dropped>) =>
  findFilms(shell, what, ONTO, caseShown(shell), () => undefined);

const listed = ({ found }: Shell) => found.store.getState().found?.films.map(({ name }) => name) ?? null;

const filmsIn = (shell: Shell) => markedFilms(shell.store.getState().caseState.document).length;

/** A gate that work waits at. */
function gate() {
  let open = () => {};
  const passed = new Promise<void>((resolve) => {
    open = resolve;
  });
  return { open, passed };
}

describe('whose a film is', () => {
  /** A case with one film that was opened on another day: only its bytes are kept here. */
  const later = (kept: { readonly invented: boolean; readonly names: string | null }) =>
    shellWith(caseOf(film('kept', { sha256: 'kept', format: 'dicom', invented: kept.invented })), {
      keeper: {
        keep: () => undefined,
        keepFilm: async () => undefined,
        list: async () => [],
        filmBytes: async () => new ArrayBuffer(1),
      },
      decoder: {
        lookInside: async (one: object) => success({ films: [one], leftOut: [] }),
        patientKey: async (asked: ArrayBuffer) => success(asked.byteLength === 1 ? kept.names : 'one'),
        decode: async () => success(await openFilm(bytes)),
      },
    });
  const asks = ({ found }: Shell) => found.store.getState().found?.patientsDiffer ?? false;

  it('is asked where the film of another day names another patient, and not where it names the same', async () => {
    const another = later({ invented: false, names: 'another' });
    await find(another, dropped(false, file('one.dcm')));
    expect([asks(another), filmsIn(another)]).toEqual([true, 1]);
    const same = later({ invented: false, names: 'one' });
    await find(same, dropped(false, file('one.dcm')));
    expect([asks(same), filmsIn(same)]).toEqual([false, 2]);
  });

  it('is not asked where the film of another day names nobody, or is invented', async () => {
    for (const kept of [
      { invented: false, names: null },
      { invented: true, names: 'another' },
    ]) {
      const shell = later(kept);
      await find(shell, dropped(false, file('one.dcm')));
      expect([asks(shell), filmsIn(shell)]).toEqual([false, 2]);
    }
  });
});

describe('a search for films', () => {
  it('goes on where the list of the one before it is still being added', async () => {
    const adding = gate();
    const shell = shellThat({ keep: () => adding.passed });
    await find(shell, dropped(true, file('one.dcm')));
    const added = foundActions(shell).add() as unknown as Promise<void>;
    await find(shell, dropped(true, file('two.dcm')));
    expect(listed(shell)).toEqual(['two.dcm']);
    adding.open();
    await added;
    expect(filmsIn(shell)).toBe(1);
    expect(listed(shell)).toEqual(['two.dcm']);
    expect(shell.found.store.getState().found?.adding).toBeNull();
  });

  it('goes on where films of the one before it are being added without a list', async () => {
    const adding = gate();
    const shell = shellThat({ keep: () => adding.passed });
    const first = find(shell, dropped(false, file('one.dcm')));
    await vi.waitFor(() => expect(shell.found.candidates.size).toBe(1));
    await find(shell, dropped(true, file('two.dcm')));
    adding.open();
    await first;
    expect(filmsIn(shell)).toBe(1);
    expect(listed(shell)).toEqual(['two.dcm']);
  });

  it('leaves no small picture behind but the one of the strip, with a list and without', async () => {
    const shell = shellThat({});
    await find(shell, dropped(false, file('one.dcm')));
    const strip = () => [...shell.store.getState().thumbnails.values()];
    expect([...pictures]).toEqual(strip());
    await find(shell, dropped(true, file('one.dcm')));
    expect(pictures.size).toBe(strip().length + 1);
    foundActions(shell).close();
    expect([...pictures]).toEqual(strip());
  });

  it('leaves no small picture behind where it is given up while a film is read', async () => {
    const reading = gate();
    const decode = vi.fn(() => reading.passed);
    const shell = shellThat({ decode });
    const given = find(shell, dropped(true, file('one.dcm')));
    await vi.waitFor(() => expect(decode).toHaveBeenCalled());
    shell.found.close();
    reading.open();
    await given;
    expect([...pictures]).toEqual([]);
    expect(shell.found.candidates.size).toBe(0);
  });
});

describe('a file that goes away after it was found', () => {
  const gone = () => {
    const one = file('one.dcm');
    const read = vi.spyOn(one.file, 'arrayBuffer');
    const vanish = () => read.mockRejectedValue(new Error('moved away'));
    return { one, vanish };
  };

  it('is left out with its reason, and the others are looked at', async () => {
    const { one, vanish } = gone();
    const shell = shellThat({});
    const { decoder } = shell;
    const lookInside = decoder.lookInside.bind(decoder);
    decoder.lookInside = (asked) => {
      if (asked.name === 'one.dcm') vanish();
      return lookInside(asked);
    };
    await find(shell, dropped(true, one, file('two.dcm')));
    expect(listed(shell)).toEqual(['two.dcm']);
    expect(shell.found.store.getState().found?.leftOut).toEqual([
      {
        name: 'one.dcm',
        reason: '“one.dcm” could not be read (moved away). Copy it to this computer and open it again.',
      },
    ]);
  });

  it('is said where another of its pictures is asked for', async () => {
    const { one, vanish } = gone();
    const shell = shellThat({});
    await find(shell, dropped(true, one));
    const [shown] = shell.found.store.getState().found?.films ?? [];
    vanish();
    foundActions(shell).setFrame(shown?.id ?? '', 1);
    await vi.waitFor(() =>
      expect(said(shell)).toEqual([
        '“one.dcm” could not be read (moved away). Copy it to this computer and open it again.',
      ]),
    );
  });

  it('keeps its picture in the list where another one cannot be decoded', async () => {
    const shell = shellThat({});
    await find(shell, dropped(true, file('one.dcm')));
    const before = shell.found.store.getState().found?.films;
    shell.decoder.decode = async () => failure({ kind: 'decoder-stopped', detail: 'no picture 2' });
    foundActions(shell).setFrame(before?.[0]?.id ?? '', 1);
    await vi.waitFor(() => expect(said(shell)[0]).toContain('no picture 2'));
    expect(shell.found.store.getState().found?.films).toEqual(before);
  });
});

describe('another picture of a file in the list', () => {
  const framesIn = (shell: Shell) =>
    markedFilms(shell.store.getState().caseState.document).map(({ film }) => film.place?.frame ?? 0);

  it('is the one that is added, also before it is decoded', async () => {
    const decoding = gate();
    let asked = 0;
    const shell = shellThat({
      decode: () => {
        asked += 1;
        return asked === 2 ? decoding.passed : Promise.resolve();
      },
    });
    await find(shell, dropped(true, file('run.dcm')));
    const [shown] = shell.found.store.getState().found?.films ?? [];
    foundActions(shell).setFrame(shown?.id ?? '', 2);
    const added = foundActions(shell).add() as unknown as Promise<void>;
    decoding.open();
    await added;
    expect(framesIn(shell)).toEqual([2]);
    await vi.waitFor(() => expect(pictures.size).toBe(shell.store.getState().thumbnails.size));
  });

  it('of two asked for one after the other is the last, whichever is decoded first', async () => {
    const shell = shellThat({});
    await find(shell, dropped(true, file('run.dcm')));
    const [shown] = shell.found.store.getState().found?.films ?? [];
    const slow = gate();
    const { decoder } = shell;
    const decode = decoder.decode.bind(decoder);
    decoder.decode = async (given, place) => {
      if (place?.frame === 1) await slow.passed;
      return decode(given, place);
    };
    const { setFrame } = foundActions(shell);
    setFrame(shown?.id ?? '', 1);
    setFrame(shown?.id ?? '', 2);
    await vi.waitFor(() =>
      expect(shell.found.store.getState().found?.films[0]?.thumbnail).not.toBe(shown?.thumbnail),
    );
    const [last] = shell.found.store.getState().found?.films ?? [];
    slow.open();
    await vi.waitFor(() => expect(vi.mocked(URL.createObjectURL)).toHaveBeenCalledTimes(3));
    expect(shell.found.store.getState().found?.films[0]).toEqual(last);
    expect([...pictures]).toEqual([last?.thumbnail]);
  });
});
