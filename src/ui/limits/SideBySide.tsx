import { useState } from 'react';
import { linearScale } from '../../geometry/linear-scale.ts';
import { RAYS, type Ray, REGIONS, type Region } from '../../tolerance/anatomy.ts';
import {
  LIMIT_QUANTITIES,
  type LimitQuantity,
  type LimitSet,
  QUANTITY_UNIT,
} from '../../tolerance/limit-set.ts';
import { findRow } from '../../tolerance/limit-sets.ts';
import { limitText } from '../../tolerance/limit-words.ts';
import { ticksFor } from '../../tolerance/ticks.ts';
import { Pick } from '../controls/controls.tsx';
import { QUANTITY } from './words.ts';

interface SideBySideProps {
  readonly limitSets: readonly LimitSet[];
  /** Of the case on screen; where it does not say, the question that is asked most. */
  readonly ray: Ray | null;
  readonly region: Region | null;
}

const names = <Value extends string>(values: readonly Value[]) =>
  values.map((value) => ({ value, name: value }));

/** One question asked of every source: which numbers there are for a finger, a part and a quantity. */
export function SideBySide({ limitSets, ...from }: SideBySideProps) {
  const [ray, setRay] = useState<Ray>(from.ray ?? 'small');
  const [region, setRegion] = useState<Region>(from.region ?? 'neck');
  const [quantity, setQuantity] = useState<LimitQuantity>('apex-dorsal');
  const rows = limitSets.map((set) => ({ set, row: findRow(set, ray, region, quantity) }));
  const saying = rows.flatMap(({ set, row }) => (row === null ? [] : [{ set, row }]));
  const silent = rows.filter(({ row }) => row === null).map(({ set }) => set.title);
  const ticks = ticksFor(ray, region, quantity);
  const most = Math.max(
    QUANTITY_UNIT[quantity] === 'degrees' ? 60 : 6,
    ...saying.map(({ row }) => row.band?.hi ?? 0),
    ...ticks.map(({ hi }) => hi),
  );
  const x = linearScale([0, most], [2, 198]);
  return (
    <section className="side-by-side" aria-label="Side by side">
      <h3>Side by side</h3>
      <div className="side-by-side__question">
        <Pick label="Finger" options={names(RAYS)} value={ray} onChange={setRay} />
        <Pick label="Part" options={names(REGIONS)} value={region} onChange={setRegion} />
        <Pick
          label="What"
          options={LIMIT_QUANTITIES.map((value) => ({ value, name: QUANTITY[value] }))}
          value={quantity}
          onChange={setQuantity}
        />
      </div>
      {saying.length + ticks.length === 0 ? (
        <p>No source on file says anything of this, which is not the same as tolerating nothing.</p>
      ) : (
        <table className="limit-set__rows">
          <thead>
            <tr>
              <th scope="col">Source</th>
              <th scope="col">Limit</th>
              <th scope="col">{`0 to ${most} ${QUANTITY_UNIT[quantity]}`}</th>
              <th scope="col">Applies to</th>
            </tr>
          </thead>
          <tbody>
            {saying.map(({ set, row }) => (
              <tr key={set.id}>
                <th scope="row">
                  {set.title}
                  {set.local && <span className="limit-set__local"> local</span>}
                  {set.population === 'child' && ' (children)'}
                  <small>{set.source.citation}</small>
                </th>
                <td>
                  {limitText(row) ?? 'none as a number'}
                  {row.note !== null && <small>{row.note}</small>}
                </td>
                <td>{row.band !== null && <Bar from={x(row.band.lo)} to={x(row.band.hi)} />}</td>
                <td>{set.appliesTo === 'measured' ? 'angle as measured' : set.appliesTo}</td>
              </tr>
            ))}
            {ticks.length > 0 && (
              <tr>
                <th scope="rowgroup" colSpan={4} className="side-by-side__single">
                  Published single limits, of no set
                </th>
              </tr>
            )}
            {ticks.map((tick) => (
              <tr key={tick.id}>
                <th scope="row">{tick.citation}</th>
                <td>
                  {tick.lo === tick.hi ? `${tick.hi}°` : `${tick.lo}–${tick.hi}°`}
                  <small>{tick.meaning}</small>
                </td>
                <td>
                  <Bar from={x(tick.lo)} to={x(tick.hi)} />
                </td>
                <td>not stated</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {silent.length > 0 && <p className="aside-note">Say nothing of it: {silent.join('; ')}.</p>}
    </section>
  );
}

function Bar({ from, to }: { from: number; to: number }) {
  return (
    <svg className="side-by-side__bar" viewBox="0 0 200 14" aria-hidden="true">
      <path className="ruler__lane-line" d="M2 7H198" />
      <rect className="ruler__band" x={from - 1} y={2} width={Math.max(2.5, to - from + 2)} height={10} />
    </svg>
  );
}
