/** Databases as earlier versions of Raybend left them on people's machines. Never change one; add the next. */

const asked = <Value>(request: IDBRequest<Value>): Promise<Value> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });

/** Version 1: a case with a checkpoint at action 3, one action after it, and a film. */
export async function makeVersion1(name: string): Promise<void> {
  const request = indexedDB.open(name, 1);
  request.onupgradeneeded = () => {
    const made = request.result;
    made.createObjectStore('cases', { keyPath: 'id' });
    made.createObjectStore('summaries', { keyPath: 'id' });
    made.createObjectStore('transactions', { keyPath: ['caseId', 'sequence'] });
    made.createObjectStore('films', { keyPath: 'sha256' });
  };
  const database = await asked(request);
  const transaction = database.transaction(['cases', 'summaries', 'transactions', 'films'], 'readwrite');
  const injury = {
    kind: 'injury',
    id: 'injury',
    label: 'Right small finger',
    hand: 'right',
    ray: 'small',
    region: 'neck',
    pattern: null,
    ageGroup: 'adult',
  };
  const film = {
    kind: 'film',
    id: 'film-a',
    sha256: '039058c6f2c0cb492c533b0a4d14ef77cc0f78abccced5287d84a1a2011cfb81',
    format: 'png',
    columns: 800,
    rows: 1000,
    hand: 'injured',
    view: 'lateral',
    viewFrom: 'user',
    day: 0,
    spacing: { kind: 'ratio', rowToColumn: 1, origin: 'assumed-square', conflicts: [] },
    invented: true,
    lossy: null,
    burnedIn: null,
    stated: { viewPosition: null, laterality: null },
    mirrored: false,
  };
  transaction.objectStore('cases').put({
    id: 'case-of-version-1',
    sequence: 3,
    file: {
      format: 'raybend-case',
      version: 1,
      case: {
        id: 'case-of-version-1',
        records: {
          injury,
          examination: { kind: 'examination', id: 'examination', answers: { 'knuckle-wound': 'no' } },
          settings: {
            kind: 'settings',
            id: 'settings',
            limitSetIds: ['common-practice-adult'],
            normal: 'best',
            placingErrorMm: null,
            placingErrorDegreesOfFreedom: null,
          },
          'film-a': film,
        },
      },
    },
  });
  transaction.objectStore('transactions').put({
    caseId: 'case-of-version-1',
    sequence: 4,
    action: {
      kind: 'do',
      transaction: {
        label: 'set the pattern',
        at: '2026-03-02T10:00:00.000Z',
        steps: [{ id: 'injury', before: injury, after: { ...injury, pattern: 'oblique' } }],
      },
    },
  });
  transaction.objectStore('summaries').put({
    id: 'case-of-version-1',
    label: 'Right small finger',
    changedAt: '2026-03-02T10:00:00.000Z',
    sequence: 4,
    filmHashes: [film.sha256],
  });
  transaction.objectStore('films').put({ sha256: film.sha256, bytes: new Uint8Array([1, 2, 3]).buffer });
  await new Promise((resolve, reject) => {
    transaction.oncomplete = resolve;
    transaction.onabort = () => reject(transaction.error);
  });
  database.close();
}

/** Version 2: as version 1, and a local protocol. */
export async function makeVersion2(name: string): Promise<void> {
  await makeVersion1(name);
  const request = indexedDB.open(name, 2);
  request.onupgradeneeded = () => {
    request.result.createObjectStore('limitSets', { keyPath: 'id' });
  };
  const database = await asked(request);
  const transaction = database.transaction('limitSets', 'readwrite');
  transaction.objectStore('limitSets').put({
    id: 'house-rules',
    file: {
      format: 'raybend-limit-set',
      version: 1,
      id: 'house-rules',
      revision: 3,
      title: 'House rules',
      appliesTo: 'deformity',
      method: { view: null, constructions: null, normalSubtractedDegrees: null },
      population: 'adult',
      source: { kind: 'local', citation: 'Invented for this test', year: null },
      note: null,
      local: true,
      rows: [
        {
          id: 'neck-small',
          rays: ['small'],
          regions: ['neck'],
          quantity: 'apex-dorsal',
          band: { lo: 30, hi: 40 },
          unit: 'degrees',
          comparison: 'up to',
          note: null,
        },
      ],
    },
  });
  await new Promise((resolve, reject) => {
    transaction.oncomplete = resolve;
    transaction.onabort = () => reject(transaction.error);
  });
  database.close();
}

/** As much of a case file as its row in a database needs. */
interface WrittenCase {
  readonly case: { readonly id: string; readonly records: Readonly<Record<string, unknown>> };
}

/**
 * Version 2 with a case as case files of version 2 hold it: the given file as its checkpoint at action 8, and after
 * that one action that sets the pattern of the injury.
 */
export async function makeVersion2WithCase(name: string, file: WrittenCase): Promise<void> {
  await makeVersion2(name);
  const database = await asked(indexedDB.open(name, 2));
  const transaction = database.transaction(['cases', 'summaries', 'transactions'], 'readwrite');
  for (const store of ['cases', 'summaries', 'transactions']) transaction.objectStore(store).clear();
  const { id, records } = file.case;
  const { injury } = records as { readonly injury: object };
  transaction.objectStore('cases').put({ id, sequence: 8, file });
  transaction.objectStore('transactions').put({
    caseId: id,
    sequence: 9,
    action: {
      kind: 'do',
      transaction: {
        label: 'set the pattern',
        at: '2026-11-02T10:00:00.000Z',
        steps: [{ id: 'injury', before: injury, after: { ...injury, pattern: 'spiral' } }],
      },
    },
  });
  transaction.objectStore('summaries').put({
    id,
    label: 'Ring finger over time',
    changedAt: '2026-11-02T10:00:00.000Z',
    sequence: 9,
    filmHashes: [],
  });
  await new Promise((resolve, reject) => {
    transaction.oncomplete = resolve;
    transaction.onabort = () => reject(transaction.error);
  });
  database.close();
}
