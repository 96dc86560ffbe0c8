import { memo, useEffect } from 'react';
import type { Assessment, NextStep } from '../../case/assessment.ts';
import type { FilmRecord, MarkRecord, SettingsRecord } from '../../case/document.ts';
import type { Ray } from '../../tolerance/anatomy.ts';
import type { BenchActions } from '../actions.ts';
import { AxesSection } from './AxesSection.tsx';
import { FilmSection } from './FilmSection.tsx';
import { FistSection } from './FistSection.tsx';
import type { PlacingState } from './MarkLine.tsx';
import type { RepeatsState } from './PlacingErrorLine.tsx';
import { ReadingsSection } from './ReadingsSection.tsx';
import type { TraceState } from './TraceLine.tsx';

interface FilmSectionsProps {
  readonly film: FilmRecord;
  /** The broken finger; null: not chosen. */
  readonly broken: Ray | null;
  readonly marks: readonly MarkRecord[];
  readonly settings: SettingsRecord;
  readonly assessment: Assessment;
  /** What comes next, if it is on this film or on none. */
  readonly next: NextStep | null;
  readonly placing: PlacingState | null;
  readonly trace: TraceState | null;
  readonly repeats: RepeatsState | null;
  readonly actions: BenchActions;
  /** Called once all of this is on the page. */
  readonly onHere: (here: true) => void;
}

/** The part of the form that belongs to the film on the plate. */
export default memo(function FilmSections(props: FilmSectionsProps) {
  const { film, broken, marks, settings, assessment, next, placing, trace, repeats, actions, onHere } = props;
  useEffect(() => onHere(true), [onHere]);
  return (
    <>
      <FilmSection film={film} broken={broken} next={next} actions={actions} />
      {film.shows === 'fist' ? (
        <FistSection marks={marks} placing={placing} actions={actions} />
      ) : (
        <AxesSection
          marks={marks}
          sideRole={film.view === 'pa' ? 'radial-side' : 'dorsal-side'}
          placing={placing}
          trace={trace}
          next={next}
          actions={actions}
        />
      )}
      <ReadingsSection
        assessment={assessment}
        film={film}
        settings={settings}
        repeats={repeats}
        actions={actions}
      />
    </>
  );
});
