import type { LimitRow, LimitSet } from '../../tolerance/limit-set.ts';
import { limitText } from '../../tolerance/limit-words.ts';

const APPLIES: Readonly<Record<LimitSet['appliesTo'], string>> = {
  measured: 'compared with the angle as measured',
  deformity: 'compared with the deformity: the angle less the normal',
  'not stated': 'the source does not say whether the normal is taken off first; compared both ways',
};

const QUANTITY: Readonly<Record<LimitRow['quantity'], string>> = {
  'apex-dorsal': 'angulation, apex dorsal',
  coronal: 'angulation sideways',
  shortening: 'shortening',
  rotation: 'rotation',
  'joint-step': 'step in the joint surface',
};

/** One limit set as a page: what it applies to, its rows, its source. */
export function LimitSetSheet({ set }: { set: LimitSet }) {
  return (
    <article className="limit-set" aria-label={set.title}>
      <h3>{set.title}</h3>
      <p className="aside-note">
        {set.population === 'child' ? 'Children' : 'Adults'}; {APPLIES[set.appliesTo]}.
      </p>
      <table className="limit-set__rows">
        <thead>
          <tr>
            <th scope="col">Finger</th>
            <th scope="col">Region</th>
            <th scope="col">What</th>
            <th scope="col">Limit</th>
          </tr>
        </thead>
        <tbody>
          {set.rows.map((row) => (
            <tr key={row.id}>
              <th scope="row">{row.rays.join(', ')}</th>
              <td>{row.regions.join(', ')}</td>
              <td>{QUANTITY[row.quantity]}</td>
              <td>
                {limitText(row) ?? 'none as a number'}
                {row.note !== null && <small>{row.note}</small>}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="aside-note">Source: {set.source.citation}</p>
    </article>
  );
}
