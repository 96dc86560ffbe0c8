import { causesOf } from '../../classroom/causes.ts';
import type { Reveal } from '../../classroom/reveal.ts';
import {
  axisWords,
  causeWords,
  inDegrees,
  nextWords,
  verdictWords,
  withSign,
} from '../../classroom/reveal-words.ts';
import { ErrorRuler } from './ErrorRuler.tsx';

interface RevealSheetProps {
  readonly found: Reveal;
  /** What the tracer read, or why it is not shown; null: not asked. */
  readonly model: string | null;
  /** How two films differ, where there are two; null otherwise. */
  readonly change: string | null;
}

/** The truth beside the reading: verdict, what each axis added, where it came from, what to do next. */
export function RevealSheet({ found, model, change }: RevealSheetProps) {
  const causes = causesOf(found);
  const ofReading = causes.filter(({ kind }) => kind !== 'view-oblique');
  const ofFilm = causes.filter(({ kind }) => kind === 'view-oblique');
  const name = found.asked === 'deformity' ? 'Deformity' : 'Angle';
  return (
    <section className="reveal" aria-label="The truth">
      <h2>The truth</h2>
      <dl className="reveal__numbers">
        <div>
          <dt>You read</dt>
          <dd>
            {inDegrees(found.value)} <small>± {inDegrees(found.reading.expandedUncertainty)}</small>
          </dd>
        </div>
        <div>
          <dt>{name} it shows</dt>
          <dd>{inDegrees(found.truth)}</dd>
        </div>
        <div>
          <dt>Error</dt>
          <dd>{withSign(found.error)}</dd>
        </div>
      </dl>
      <ErrorRuler found={found} />
      <p className="reveal__verdict" data-verdict={found.verdict} role="status">
        {verdictWords(found, causes)}
      </p>
      <h3>What each axis added</h3>
      <p>{axisWords(found.proximal, found.side)}</p>
      <p>{axisWords(found.distal, found.side)}</p>
      {found.asked === 'angulation' && Math.abs(found.normal) >= 1 && (
        <p className="aside-note">
          Of this angle {inDegrees(Math.abs(found.normal))} were there before the bone broke.
        </p>
      )}
      <h3>Where the error came from</h3>
      {ofReading.length === 0 ? (
        <p>Nothing moved it by as much as a degree.</p>
      ) : (
        <ul className="reveal__causes">
          {ofReading.map((cause) => {
            const words = causeWords(cause, found.side);
            return (
              <li key={words.what} data-cause={cause.kind}>
                <b>{withSign(cause.adds)}</b> {words.what}
              </li>
            );
          })}
        </ul>
      )}
      {ofFilm.map((cause) => (
        <p key="film" data-cause={cause.kind}>
          {causeWords(cause, found.side).what}
        </p>
      ))}
      {change !== null && <p className="reveal__change">{change}</p>}
      {model !== null && <p className="reveal__model">{model}</p>}
      <h3>Next</h3>
      <p>{nextWords(causes, found)}</p>
      <ul className="legend" aria-label="Lines on the film">
        <li>
          <Stroke kind="own" /> yours, as you placed them
        </li>
        <li>
          <Stroke kind="truth" /> the truth, white and dotted
        </li>
        {model !== null && (
          <li>
            <Stroke kind="model" /> the tracer’s, thin and white
          </li>
        )}
      </ul>
    </section>
  );
}

const Stroke = ({ kind }: { readonly kind: 'own' | 'truth' | 'model' }) => (
  <svg className={`legend__stroke legend__stroke--${kind}`} viewBox="0 0 34 8" aria-hidden="true">
    <path d="M2 4H32" />
  </svg>
);
