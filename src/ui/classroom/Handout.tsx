import type { DemoStep } from '../../classroom/demonstration.ts';
import { PushButton } from '../controls/controls.tsx';

export interface KeptStep {
  readonly step: DemoStep;
  /** Address of the picture in this page; null while it is drawn. */
  readonly picture: string | null;
}

interface HandoutProps {
  readonly title: string;
  readonly kept: readonly KeptStep[];
  /** What is going on with the video, or why there is none. */
  readonly video: string;
  /** Why a picture will not come; null: it may. */
  readonly missing: string | null;
  readonly canRecord: boolean;
  readonly onPrint: () => void;
  readonly onVideo: () => void;
  readonly onBack: () => void;
}

/** The steps of a demonstration one below the other, two on a printed page. */
export function Handout({ title, kept, video, missing, canRecord, onPrint, onVideo, onBack }: HandoutProps) {
  const ready = kept.every(({ picture }) => picture !== null);
  return (
    <article className="handout">
      <header className="handout__head">
        <h2>{title}</h2>
        <div className="leaf__actions handout__actions">
          <PushButton next onPress={onPrint} disabled={!ready}>
            Print
          </PushButton>
          <PushButton onPress={onVideo} disabled={!ready || !canRecord}>
            Save as a video
          </PushButton>
          <PushButton quiet onPress={onBack}>
            Back
          </PushButton>
        </div>
        <p className="handout__actions aside-note" role="status">
          {ready ? video : (missing ?? 'The pictures are being drawn…')}
        </p>
      </header>
      <ol className="handout__steps">
        {kept.map(({ step, picture }, index) => (
          <li key={step.id}>
            <figure>
              {picture !== null && <img src={picture} alt={step.title} />}
              <figcaption>
                <h3>
                  {index + 1}. {step.title}
                </h3>
                <p>{step.words}</p>
                {picture !== null && (
                  <a className="handout__save" href={picture} download={`step ${index + 1}.png`}>
                    Save this picture
                  </a>
                )}
              </figcaption>
            </figure>
          </li>
        ))}
      </ol>
      <footer>
        Education only. Not a medical device: the local protocol and a licensed clinician decide.
      </footer>
    </article>
  );
}
