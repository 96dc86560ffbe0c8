import { type ReactNode, useState } from 'react';
import { Choice, SwitchButton } from '../controls/controls.tsx';
import type { AttributeRow, Preview as PreviewContent, ShownPicture } from './leaving.ts';

/** Exactly what leaves. */
export function Preview({ preview }: { readonly preview: PreviewContent }) {
  switch (preview.kind) {
    case 'picture':
      return <Picture picture={preview.picture} />;
    case 'pages':
      return (
        <Scrolls className="leaving__pages" label="Pages that leave">
          {preview.pages}
        </Scrolls>
      );
    case 'text':
      return (
        <Scrolls className="leaving__text" label="Text that leaves">
          <pre>{preview.text}</pre>
        </Scrolls>
      );
    case 'table':
      return <Table {...preview} />;
    case 'object':
      return (
        <>
          {preview.picture !== null && <Picture picture={preview.picture} />}
          {preview.notes.map((note) => (
            <p key={note} className="leaving__warning">
              {note}
            </p>
          ))}
          <Attributes rows={preview.attributes} />
        </>
      );
  }
}

/** A region that scrolls, so it must be reached by keyboard. */
function Scrolls({
  className,
  label,
  children,
}: {
  readonly className: string;
  readonly label: string;
  readonly children: ReactNode;
}) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls is reached by keyboard
    <section className={className} aria-label={label} tabIndex={0}>
      {children}
    </section>
  );
}

/** The picture as large as its place, or pixel by pixel. */
function Picture({ picture: { url, width, height } }: { readonly picture: ShownPicture }) {
  const [full, setFull] = useState(false);
  return (
    <figure className="leaving__figure">
      <Scrolls
        className={full ? 'leaving__picture leaving__picture--full' : 'leaving__picture'}
        label="Picture that leaves"
      >
        <img
          src={url}
          width={width}
          height={height}
          alt="The film as it leaves, with all that is drawn and written on it"
        />
      </Scrolls>
      <figcaption>
        <span>
          {width} × {height} pixels
        </span>
        <SwitchButton on={full} onChange={setFull}>
          Full size
        </SwitchButton>
      </figcaption>
    </figure>
  );
}

function Table({ columns, rows }: Omit<Extract<PreviewContent, { kind: 'table' }>, 'kind'>) {
  return (
    <Scrolls className="leaving__table" label="Table that leaves">
      <table>
        <thead>
          <tr>
            {columns.map(({ name, meaning }) => (
              <th key={name} scope="col" title={meaning}>
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.join(',')}>
              {row.map((cell, index) => (
                <td key={columns[index]?.name} data-long={cell.length > 28 || undefined}>
                  {cell}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      {rows.length === 0 && <p>No rows yet: place both axes on a film first.</p>}
    </Scrolls>
  );
}

function Attributes({ rows }: { readonly rows: readonly AttributeRow[] }) {
  const [which, setWhich] = useState<'all' | 'changed'>('all');
  const changed = rows.filter(({ fate }) => fate !== 'kept');
  const shown = which === 'all' ? rows : changed;
  return (
    <div className="leaving__object">
      {changed.length > 0 && (
        <Choice
          label="Attributes"
          labelHidden
          options={[
            { value: 'all', name: `Everything (${rows.length})` },
            { value: 'changed', name: `What was changed (${changed.length})` },
          ]}
          value={which}
          onChange={setWhich}
        />
      )}
      <Scrolls className="leaving__attributes" label="Attributes that leave">
        <table>
          <thead>
            <tr>
              <th scope="col">Attribute</th>
              <th scope="col">What leaves</th>
            </tr>
          </thead>
          <tbody>
            {shown.map(({ path, tag, value, fate }) => (
              <tr key={path} data-fate={fate}>
                <th scope="row">
                  {path}
                  <small>{tag}</small>
                </th>
                <td>
                  {value === '' ? <span className="leaving__nothing">nothing</span> : value}
                  {fate !== 'kept' && <em className="leaving__fate">{fate}</em>}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scrolls>
    </div>
  );
}
