/** A file as it was dropped or chosen; `name` is for the person, with the folders it lay in. */
export interface DroppedFile {
  readonly name: string;
  readonly file: File;
}

export interface Dropped {
  readonly files: readonly DroppedFile[];
  /** Whether a folder was among what was dropped: then all sorts of files are to be expected. */
  readonly fromFolder: boolean;
  /** More files than are looked through lay in the folders. */
  readonly cutShort: boolean;
}

/** A patient's disc holds some hundreds of files; in a folder of more than these somebody dropped the wrong one. */
const MOST_FILES = 5000;

/** Files chosen by a dialog; one for folders gives each file's path. */
export function chosenFiles(files: readonly File[]): Dropped {
  const named = files.map((file) => ({ name: file.webkitRelativePath || file.name, file }));
  return {
    files: named.slice(0, MOST_FILES),
    fromFolder: files.some((file) => Boolean(file.webkitRelativePath)),
    cutShort: named.length > MOST_FILES,
  };
}

/**
 * What was dropped, with all the files in folders. Call it in the event itself: the browser forgets what was
 * dropped as soon as the handler returns.
 */
export function droppedFiles(data: DataTransfer): Promise<Dropped> {
  const entries = [...data.items].flatMap((item) => {
    const entry = item.kind === 'file' ? item.webkitGetAsEntry() : null;
    return entry === null ? [] : [entry];
  });
  if (!entries.some((entry) => entry.isDirectory)) return Promise.resolve(chosenFiles([...data.files]));
  return walk(entries);
}

async function walk(entries: readonly FileSystemEntry[]): Promise<Dropped> {
  const files: DroppedFile[] = [];
  const waiting = [...entries];
  for (let entry = waiting.shift(); entry !== undefined; entry = waiting.shift()) {
    if (files.length >= MOST_FILES) return { files, fromFolder: true, cutShort: true };
    if (isDirectory(entry)) waiting.unshift(...(await childrenOf(entry)));
    else
      files.push({
        name: entry.fullPath.replace(/^\//, ''),
        file: await fileOf(entry as FileSystemFileEntry),
      });
  }
  return { files, fromFolder: true, cutShort: false };
}

const isDirectory = (entry: FileSystemEntry): entry is FileSystemDirectoryEntry => entry.isDirectory;

const fileOf = (entry: FileSystemFileEntry) =>
  new Promise<File>((resolve, reject) => entry.file(resolve, reject));

/** A reader hands out entries in pieces, and an empty piece at the end. */
async function childrenOf(directory: FileSystemDirectoryEntry): Promise<readonly FileSystemEntry[]> {
  const reader = directory.createReader();
  const children: FileSystemEntry[] = [];
  for (;;) {
    const piece = await new Promise<readonly FileSystemEntry[]>((resolve, reject) =>
      reader.readEntries(resolve, reject),
    );
    if (piece.length === 0) return children;
    children.push(...piece);
  }
}
