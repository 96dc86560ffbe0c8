type Notes = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

/**
 * `localStorage`, for what is a help and never needed. Where the browser forbids it, which throws as soon as it is
 * named, nothing is noted and nothing is found; nor is anything noted where it is full.
 */
export const notepad: Notes = {
  getItem: (key) => attempt(() => localStorage.getItem(key)),
  setItem: (key, value) => void attempt(() => localStorage.setItem(key, value)),
  removeItem: (key) => void attempt(() => localStorage.removeItem(key)),
};

function attempt<Value>(ask: () => Value): Value | null {
  try {
    return ask();
  } catch {
    return null;
  }
}
