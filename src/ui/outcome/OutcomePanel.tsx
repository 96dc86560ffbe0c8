import { memo, useRef, useState } from 'react';
import type { Assessment } from '../../case/assessment.ts';
import { type Comparison, valueAgainstLimit } from '../../case/comparison.ts';
import type { FilmRecord, InjuryRecord, RecordId, SettingsRecord } from '../../case/document.ts';
import { formatReading } from '../../case/format.ts';
import type { KnownReading, Quantity } from '../../case/reading.ts';
import type { LimitSet } from '../../tolerance/limit-set.ts';
import { ticksFor } from '../../tolerance/ticks.ts';
import type { BenchActions } from '../actions.ts';
import { Choice, Pick } from '../controls/controls.tsx';
import { knownReading, useLive } from '../live.ts';
import { CautionList } from './CautionList.tsx';
import { LimitRuler, type RulerHandle, type RulerLane } from './LimitRuler.tsx';
import { SetsBeside, setName } from './SetsBeside.tsx';

interface OutcomePanelProps {
  readonly assessment: Assessment;
  /** The film shown; null: none. */
  readonly film: FilmRecord | null;
  readonly injury: InjuryRecord;
  readonly limitSets: readonly LimitSet[];
  readonly settings: SettingsRecord;
  readonly actions: BenchActions;
}

/** Always in sight: cautions worst first, the limit ruler, and the outcome in words. */
export const OutcomePanel = memo(function OutcomePanel(props: OutcomePanelProps) {
  const { assessment, film, injury, limitSets, settings, actions } = props;
  const compared = comparedReadings(assessment, film?.id ?? null);
  const [wanted, setWanted] = useState<Quantity | null>(null);
  const shown = compared.find(({ reading }) => reading.quantity === wanted) ?? compared[0] ?? null;
  const [choosing, setChoosing] = useState(false);
  const beside = settings.limitSetIds.slice(1);
  const more = beside.length === 0 ? '+\u2009set' : `+\u2009${beside.length}`;
  const chosen = settings.limitSetIds[0] ?? limitSets[0]?.id ?? null;
  return (
    <section className="outcome" aria-label="Against the limits">
      <div className="outcome__head">
        <h2 className="section__title">Against the limits</h2>
        <Pick
          label="Limit set"
          labelHidden
          options={limitSets.map((set) => ({ value: set.id, name: setName(set) }))}
          value={chosen}
          onChange={(id) =>
            actions.setSettings(
              { limitSetIds: [id, ...beside.filter((other) => other !== id)] },
              'choose the limit set',
            )
          }
        />
        <button
          type="button"
          className="button"
          aria-expanded={choosing}
          aria-label={`${more} beside this one`}
          onClick={() => setChoosing(!choosing)}
        >
          {more}
        </button>
      </div>
      {choosing && (
        <SetsBeside
          limitSets={limitSets.filter(({ id }) => id !== chosen)}
          chosen={beside}
          onChange={(ids) =>
            actions.setSettings(
              { limitSetIds: [...settings.limitSetIds.slice(0, 1), ...ids] },
              'choose the sets beside it',
            )
          }
        />
      )}
      <CautionList cautions={assessment.cautions} atFirst={2} />
      {compared.length > 1 && (
        <Choice
          label="Reading on the ruler"
          labelHidden
          options={compared.map(({ reading }) => ({
            value: reading.quantity,
            name: SHORT_NAME[reading.quantity] ?? reading.quantity,
          }))}
          value={shown?.reading.quantity ?? null}
          onChange={setWanted}
        />
      )}
      {assessment.missingLimitSetIds.length > 0 && (
        <p className="aside-note">
          Chosen here, and not on this computer: {assessment.missingLimitSetIds.join(', ')}. Import its file
          under Limits, or choose another set.
        </p>
      )}
      {shown === null ? (
        <p className="outcome__words">{nothingToCompare(assessment, injury, film)}</p>
      ) : (
        <Compared key={shown.reading.id} shown={shown} injury={injury} />
      )}
    </section>
  );
});

/** What is missing before anything can be compared, and nothing that is there already. */
function nothingToCompare({ readings }: Assessment, injury: InjuryRecord, film: FilmRecord | null): string {
  if (film?.shows === 'fist')
    return 'A photograph of the fist is compared with no limit: it supports the look at the hand.';
  if (film?.hand === 'other')
    return 'A film of the other hand is compared with no limit: its angle is the normal to take off.';
  const angle = readings.find((one) => one.filmId === film?.id && one.quantity === 'angulation');
  const lacks = [
    ...(injury.ray === null || injury.region === null ? ['say which bone is broken'] : []),
    ...(film === null ? ['open a film'] : []),
    ...(film?.view === null ? ['set the view'] : []),
    ...(film === null || angle !== undefined ? [] : ['place both axes']),
  ];
  // Axes that are there and make no angle: their own sentence says what to do with them.
  const why = angle?.state === 'missing' ? ` ${angle.lacks}` : '';
  if (lacks.length > 0)
    return `Nothing to compare yet: ${lacks.join(', ').replace(/, (?!.*, )/, ' and ')}.${why}`;
  return why === ''
    ? 'No reading of this film has a limit to stand against.'
    : `Nothing to compare yet.${why}`;
}

const SHORT_NAME: Readonly<Partial<Record<Quantity, string>>> = {
  angulation: 'Angle',
  deformity: 'Angle',
  'shortening-by-other-hand': 'Shortening',
  'shortening-by-neighbours': 'by neighbours',
  'shortening-by-head-line': 'by head line',
  'shortening-by-overlap': 'by overlap',
  'joint-step': 'Joint step',
};

interface ComparedReading {
  readonly reading: KnownReading;
  /** With each chosen set that this reading, or its other form (measured or deformity), was compared with. */
  readonly comparisons: readonly Comparison[];
}

/**
 * What the ruler can show for a film: the angle, and each displacement that has limits. The measured angle and
 * the deformity are one entry; the first chosen set says which of the two stands on the ruler.
 */
function comparedReadings(assessment: Assessment, filmId: RecordId | null): readonly ComparedReading[] {
  const found: { reading: KnownReading; comparisons: Comparison[] }[] = [];
  for (const comparison of assessment.comparisons) {
    const reading = knownReading(assessment, comparison.readingId);
    if (reading === null || reading.filmId !== filmId) continue;
    const same = found.find(
      (one) => one.reading.id === reading.id || (isAngle(one.reading) && isAngle(reading)),
    );
    if (same === undefined) found.push({ reading, comparisons: [comparison] });
    else same.comparisons.push(comparison);
  }
  return found;
}

const isAngle = ({ quantity }: KnownReading): boolean =>
  quantity === 'angulation' || quantity === 'deformity';

function Compared({ shown, injury }: { shown: ComparedReading; injury: InjuryRecord }) {
  const { reading, comparisons } = shown;
  const ruler = useRef<RulerHandle>(null);
  const words = useRef<HTMLParagraphElement>(null);
  const [first] = comparisons;
  useLive((live) => {
    const now = live.comparisons.find(
      (other) => other.readingId === first?.readingId && other.limitSet.id === first.limitSet.id,
    );
    const known = knownReading(live, reading.id);
    const has = now !== undefined && known !== null;
    ruler.current?.show(has ? rulerReading(known) : null);
    if (words.current !== null) words.current.textContent = has ? now.words : NOTHING_HERE;
  });
  if (first === undefined) return null;
  const quantity = first.row?.quantity;
  const { ray, region } = injury;
  const ticks =
    ray === null || region === null || quantity === undefined ? [] : ticksFor(ray, region, quantity);
  return (
    <>
      <LimitRuler
        ref={ruler}
        reading={rulerReading(reading)}
        lanes={comparisons.map(
          ({ limitSet, row, outcome, comparedWith }): RulerLane => ({
            id: limitSet.id,
            title: `${setName(limitSet)}${comparedWith === first.comparedWith ? '' : COMPARED_WITH[comparedWith]}`,
            band: row?.band ?? null,
            outcome,
          }),
        )}
        ticks={ticks}
        unit={reading.unit === 'millimetres' ? 'millimetres' : 'degrees'}
        description={comparisons
          .map(({ limitSet, words: said }) => `${setName(limitSet)}: ${said}`)
          .join(' ')}
      />
      <p ref={words} className="outcome__words" data-outcome={first.outcome}>
        {first.words}
      </p>
    </>
  );
}

/** While a point is dragged to where there is no reading. */
const NOTHING_HERE = 'Nothing to compare with the point where it is now.';

/** Said of a set that is compared with the other form of the angle than the one on the ruler. */
const COMPARED_WITH: Readonly<Record<Comparison['comparedWith'], string>> = {
  measured: ', as measured',
  deformity: ', less the normal',
  both: ', both ways',
  value: '',
};

function rulerReading(reading: KnownReading) {
  const { value, plusMinus } = formatReading(reading);
  return {
    value: valueAgainstLimit(reading),
    expandedUncertainty: reading.expandedUncertainty,
    // Beside the plate, which shows the angle as measured, a bare number would be taken for that.
    text: `${reading.quantity === 'deformity' ? 'deformity ' : ''}${value} ${plusMinus}`,
  };
}
