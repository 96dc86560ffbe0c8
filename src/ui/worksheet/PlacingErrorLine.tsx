import type { FilmRecord, SettingsRecord } from '../../case/document.ts';
import { NOMINAL_PLACING_ERROR_MM } from '../../geometry/placing.ts';
import type { BenchActions } from '../actions.ts';
import { PushButton } from '../controls/controls.tsx';
import { HelpMark } from '../help/HelpMark.tsx';
import { Line } from './Section.tsx';

/** An axis being placed again and again, blind, as the form shows it. */
export interface RepeatsState {
  /** How the axis is drawn, in words. */
  readonly axis: string;
  readonly made: number;
  readonly wanted: number;
  /** Once all are made: the SD of a placed point along each coordinate, or null where they say nothing. */
  readonly estimate: { readonly millimetres: number; readonly degreesOfFreedom: number } | null;
}

interface PlacingErrorLineProps {
  readonly settings: SettingsRecord;
  readonly film: FilmRecord;
  readonly repeats: RepeatsState | null;
  readonly actions: BenchActions;
}

/** How exactly points are taken to be placed, where that comes from, and the way to find one's own. */
export function PlacingErrorLine({ settings, film, repeats, actions }: PlacingErrorLineProps) {
  return (
    <section className="group" aria-label="Your placing error">
      <h3 className="group__title">
        Your placing error
        <HelpMark page="uncertainty" of="the interval" />
      </h3>
      {repeats === null ? (
        <Stated settings={settings} film={film} actions={actions} />
      ) : repeats.made < repeats.wanted ? (
        <Line
          name={`Placing ${repeats.made + 1} of ${repeats.wanted}`}
          note={`${repeats.axis}, with every earlier mark out of sight. The case does not change.`}
        >
          <PushButton onPress={actions.stopRepeats}>Stop</PushButton>
        </Line>
      ) : (
        <Outcome repeats={repeats} actions={actions} />
      )}
    </section>
  );
}

function Stated({ settings, film, actions }: Omit<PlacingErrorLineProps, 'repeats'>) {
  const { placingErrorMm, placingErrorDegreesOfFreedom: freedom } = settings;
  const from =
    placingErrorMm === null
      ? 'for each coordinate of a point: an assumption, until your own repeats say better'
      : freedom === null
        ? 'for each coordinate of a point: typed in'
        : `for each coordinate of a point: from your repeats, ${freedom} degrees of freedom`;
  const measurable = film.spacing.kind === 'millimetres';
  return (
    <Line
      name={millimetres(placingErrorMm ?? NOMINAL_PLACING_ERROR_MM)}
      note={measurable ? from : `${from}. This film has no scale: repeats on it give no millimetres`}
    >
      {placingErrorMm !== null && (
        <PushButton
          quiet
          onPress={() =>
            actions.setSettings(
              { placingErrorMm: null, placingErrorDegreesOfFreedom: null },
              'take the assumed placing error',
            )
          }
        >
          Assume
        </PushButton>
      )}
      <PushButton disabled={!measurable} onPress={actions.beginRepeats}>
        Place again, blind
      </PushButton>
    </Line>
  );
}

function Outcome({ repeats, actions }: { repeats: RepeatsState; actions: BenchActions }) {
  const { estimate, wanted } = repeats;
  if (estimate === null)
    return (
      <div className="repeats" role="status" tabIndex={-1}>
        <Line
          name="No estimate"
          note={`The ${wanted} placings lie on one another, which nobody’s do. Place them anew, looking for the bone each time.`}
        >
          <PushButton onPress={actions.stopRepeats}>Put away</PushButton>
        </Line>
      </div>
    );
  return (
    <div className="repeats" role="status" tabIndex={-1}>
      <p>
        <b>{millimetres(estimate.millimetres)}</b> for each coordinate, from {wanted} placings (
        {estimate.degreesOfFreedom} degrees of freedom). It tells how far your placings lie apart, not how far
        they are off.
      </p>
      <div className="line__answer">
        <PushButton quiet onPress={actions.stopRepeats}>
          Throw away
        </PushButton>
        <PushButton onPress={() => actions.adoptRepeats(false)}>Use in this case</PushButton>
        <PushButton onPress={() => actions.adoptRepeats(true)}>Use here and in new cases</PushButton>
      </div>
    </div>
  );
}

const millimetres = (value: number): string => `${value.toFixed(2)}\u2009mm`;
