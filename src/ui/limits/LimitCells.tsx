import type { LimitSet } from '../../tolerance/limit-set.ts';
import { limitText } from '../../tolerance/limit-words.ts';
import { QUANTITY } from './words.ts';

/** The heads of the columns that every table of limits has. */
export const LimitHeads = () => (
  <>
    <th scope="col">Finger</th>
    <th scope="col">Part</th>
    <th scope="col">What</th>
    <th scope="col">Limit</th>
  </>
);

/** A limit in these columns. */
export const LimitCells = ({ row }: { readonly row: LimitSet['rows'][number] }) => (
  <>
    <th scope="row">{row.rays.join(', ')}</th>
    <td>{row.regions.join(', ')}</td>
    <td>{QUANTITY[row.quantity]}</td>
    <td>
      {limitText(row) ?? 'none as a number'}
      {row.note !== null && <small>{row.note}</small>}
    </td>
  </>
);
