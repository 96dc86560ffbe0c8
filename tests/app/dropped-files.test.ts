import { describe, expect, it } from 'vitest';
import { chosenFiles, droppedFiles } from '../../src/app/films/dropped-files.ts';

/** The File and Directory Entries API, as far as a drop uses it: readers hand out entries in pieces of 100. */
type Tree = { readonly [name: string]: Tree | string };
function entryOf(name: string, node: Tree | string, above = ''): FileSystemEntry {
  const fullPath = `${above}/${name}`;
  if (typeof node === 'string') {
    const file = (done: (file: File) => void) => done(new File([node], name));
    return { isDirectory: false, isFile: true, name, fullPath, file } as unknown as FileSystemEntry;
  }
  const children = Object.entries(node).map(([child, inside]) => entryOf(child, inside, fullPath));
  const createReader = () => {
    let from = 0;
    return {
      readEntries(done: (entries: readonly FileSystemEntry[]) => void) {
        done(children.slice(from, from + 100));
        from += 100;
      },
    };
  };
  return { isDirectory: true, isFile: false, name, fullPath, createReader } as unknown as FileSystemEntry;
}

const dropOf = (nodes: Tree): DataTransfer =>
  ({
    items: Object.entries(nodes).map(([name, node]) => ({
      kind: 'file',
      webkitGetAsEntry: () => entryOf(name, node),
    })),
    files: Object.keys(nodes).map((name) => new File([''], name)),
  }) as unknown as DataTransfer;

describe('what was dropped', () => {
  it('is the files themselves where there is no folder', async () => {
    const dropped = await droppedFiles(dropOf({ 'a.dcm': 'a', 'b.dcm': 'b' }));
    expect(dropped).toMatchObject({ fromFolder: false, cutShort: false });
    expect(dropped.files.map(({ name }) => name)).toEqual(['a.dcm', 'b.dcm']);
  });

  it('is every file of a folder, however deep, with its path and its content', async () => {
    const many = Object.fromEntries(Array.from({ length: 250 }, (_, i) => [`IM${i}`, `${i}`]));
    const dropped = await droppedFiles(
      dropOf({ DISC: { DICOMDIR: 'list', DICOM: { PAT1: many } }, 'x.txt': 'x' }),
    );
    expect(dropped.fromFolder).toBe(true);
    expect(dropped.files).toHaveLength(252);
    expect(dropped.files[0]?.name).toBe('DISC/DICOMDIR');
    const last = dropped.files.find(({ name }) => name === 'DISC/DICOM/PAT1/IM249');
    expect(await last?.file.text()).toBe('249');
  });

  it('ends at 5,000 files and says so', async () => {
    const many = Object.fromEntries(Array.from({ length: 5001 }, (_, i) => [`${i}`, '']));
    const dropped = await droppedFiles(dropOf({ folder: many }));
    expect(dropped.files).toHaveLength(5000);
    expect(dropped.cutShort).toBe(true);
  });

  it('knows a folder chosen in a dialog by its paths', () => {
    const file = new File(['a'], 'a.dcm');
    Object.defineProperty(file, 'webkitRelativePath', { value: 'disc/a.dcm' });
    expect(chosenFiles([file])).toMatchObject({ fromFolder: true, files: [{ name: 'disc/a.dcm' }] });
    expect(chosenFiles([new File(['b'], 'b.dcm')])).toMatchObject({ fromFolder: false });
  });
});
