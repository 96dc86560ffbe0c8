import type { Result } from '../../geometry/result.ts';
import type { LimitSet } from '../../tolerance/limit-set.ts';
import { parseLimitSet, serializeLimitSet } from '../../tolerance/limit-set-file.ts';
import { copySet, localId } from '../../tolerance/local-protocol.ts';
import type { LimitActions } from '../../ui/limits/actions.ts';
import { download } from '../download.ts';
import type { Shell } from '../shell.ts';
import { allSets, byTitle } from './sets.ts';

/** The requests of the Limits place, carried out on the shell. */
export function limitActions(shell: Shell): LimitActions {
  const local = () => shell.store.getState().localSets;
  const keep = (set: LimitSet): void => {
    const others = local().filter(({ id }) => id !== set.id);
    shell.store.setState({ localSets: byTitle([...others, set]) });
    void shell.protocols?.keepLimitSet(set.id, set);
  };
  return {
    copy(set) {
      const title = `${set.title.replace(/ \(copy( \d+)?\)$/, '')} (copy)`;
      const id = localId(
        title,
        allSets(local()).map((one) => one.id),
      );
      const copied = copySet(set, { id, title });
      keep(copied);
      return copied.id;
    },
    save(edited: Result<LimitSet, { readonly kind: string; readonly message: string }>) {
      if (!edited.ok) return edited.error.message;
      keep(edited.value);
      return null;
    },
    remove(id) {
      shell.store.setState({ localSets: local().filter((set) => set.id !== id) });
      void shell.protocols?.removeLimitSet(id);
    },
    exportSet: (set) =>
      download(`${set.id}.json`, new Blob([serializeLimitSet(set)], { type: 'application/json' })),
    async importFile(file) {
      const read = parseLimitSet(await file.text(), file.name);
      if (!read.ok) return { ok: false, message: read.error.message };
      const before = local().find(({ id }) => id === read.value.id);
      keep(read.value);
      return {
        ok: true,
        message:
          before === undefined
            ? `“${read.value.title}” was taken over as a local protocol.`
            : `“${read.value.title}” was taken over in place of its revision ${before.revision} that was here.`,
      };
    },
  };
}
