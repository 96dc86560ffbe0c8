/** What one tab tells the others. */
export interface TabNotice {
  readonly kind: 'case-changed' | 'case-removed';
  readonly caseId: string;
}

/** Tells the other tabs of this browser what was written, and hears them. */
export interface Tabs {
  tell(notice: TabNotice): void;
  /** A tab never hears itself. Returns how to stop hearing. */
  hear(listener: (notice: TabNotice) => void): () => void;
  close(): void;
}

/** Connects the tabs of one database; a browser without channels has tabs that hear nothing. */
export function connectTabs(databaseName: string): Tabs {
  if (typeof BroadcastChannel === 'undefined') {
    return { tell: () => undefined, hear: () => () => undefined, close: () => undefined };
  }
  const channel = new BroadcastChannel(`${databaseName}-cases`);
  return {
    tell: (notice) => channel.postMessage(notice),
    hear(listener) {
      const heard = (event: MessageEvent<TabNotice>) => listener(event.data);
      channel.addEventListener('message', heard);
      return () => channel.removeEventListener('message', heard);
    },
    close: () => channel.close(),
  };
}

/** Does something only if no other tab holds its place; without locks in the browser, never. */
export async function whenAlone(databaseName: string, work: () => Promise<void>): Promise<void> {
  await navigator.locks?.request(placeOf(databaseName), { ifAvailable: true }, (lock) =>
    lock === null ? undefined : work(),
  );
}

/** Says that this tab is here, until the function returned is called or the tab is closed. */
export function holdPlace(databaseName: string): Promise<() => void> {
  if (navigator.locks === undefined) return Promise.resolve(() => undefined);
  return new Promise((held) => {
    void navigator.locks.request(
      placeOf(databaseName),
      { mode: 'shared' },
      () => new Promise<void>((leave) => held(() => leave())),
    );
  });
}

const placeOf = (databaseName: string): string => `${databaseName}-tab`;
