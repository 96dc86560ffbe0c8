import { useContext } from 'react';
import type { FilmRecord } from '../../case/document.ts';
import type { BenchActions } from '../actions.ts';
import { FilmToolsContext } from './film-tools.ts';
import { PartLines } from './PartLines.tsx';
import { ScaleLines } from './ScaleLines.tsx';
import { SideLines } from './SideLines.tsx';

/** Scale, side and parts of a film, as lines of the worksheet. */
export function FilmTools({ film, actions }: { film: FilmRecord; actions: BenchActions }) {
  const tools = useContext(FilmToolsContext);
  return (
    <>
      <ScaleLines key={film.id} film={film} tools={tools} actions={actions} />
      {tools !== null && (
        <details className="more film-tools">
          <summary>Side and parts of the picture</summary>
          <SideLines film={film} tools={tools} actions={actions} />
          <PartLines key={film.id} film={film} tools={tools} actions={actions} />
        </details>
      )}
    </>
  );
}
