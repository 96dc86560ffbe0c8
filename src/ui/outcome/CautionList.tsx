import { useState } from 'react';
import type { Caution } from '../../tolerance/caution.ts';

const GRADE_WORD = { stop: 'First:', warn: 'Caution:', note: 'Note:' } as const;

/** Cautions worst first; each opens to what is usually done and who says so. */
export function CautionList({ cautions, atFirst }: { cautions: readonly Caution[]; atFirst: number }) {
  const [all, setAll] = useState(false);
  const shown = all ? cautions : cautions.slice(0, atFirst);
  const rest = cautions.length - shown.length;
  return (
    <div className="cautions">
      <ul>
        {shown.map((caution) => (
          <li key={caution.id}>
            <details className="caution" data-grade={caution.grade}>
              <summary>
                <span className="visually-hidden">{GRADE_WORD[caution.grade]} </span>
                <b>{caution.title}.</b> <span className="caution__why">{caution.why}</span>
              </summary>
              <p>{caution.usually}</p>
              <small>Source: {caution.source}</small>
            </details>
          </li>
        ))}
      </ul>
      {(rest > 0 || all) && cautions.length > atFirst && (
        <button type="button" className="link-button" onClick={() => setAll(!all)}>
          {all ? 'Show the worst only' : `${rest} more ${rest === 1 ? 'caution' : 'cautions'}`}
        </button>
      )}
    </div>
  );
}
