import { SHIPPED_LIMIT_SETS } from '../../tolerance/limit-sets.ts';
import { LimitSetSheet } from '../../ui/limits/LimitSetSheet.tsx';

/** Every limit set with its rows and its source; nothing here is merged, because the sources disagree. */
export function LimitsPlace() {
  return (
    <main className="limits">
      <header className="limits__head">
        <h2>Limits and where they come from</h2>
        <p>
          Sources disagree, seldom say which view and which lines they mean, and many descend from one
          another. They are shown here one by one and never merged. Your local protocol and the clinician in
          charge decide.
        </p>
      </header>
      {SHIPPED_LIMIT_SETS.map((set) => (
        <LimitSetSheet key={set.id} set={set} />
      ))}
    </main>
  );
}
