import { useEffect, useRef } from 'react';
import type { BenchActions } from '../actions.ts';
import { PushButton } from '../controls/controls.tsx';

/** Both axes being traced from the film, as the form shows it. */
export type TraceState =
  | {
      readonly kind: 'offered';
      /** Why it cannot be done here, as a sentence; null: it can. */
      readonly lacks: string | null;
    }
  | { readonly kind: 'tapping'; readonly instruction: string; readonly canStepBack: boolean }
  | { readonly kind: 'running' }
  | { readonly kind: 'failed'; readonly sentence: string; readonly canStepBack: boolean }
  | {
      readonly kind: 'proposed';
      /** False: it is shown as not sure, with the reasons. */
      readonly sure: boolean;
      /** "31°" */
      readonly angle: string;
      /** "27–35°", 95 in 100. */
      readonly interval: string;
      readonly reasons: readonly string[];
      /** There is a corrected point or a pair of taps to take back. */
      readonly canStepBack: boolean;
    };

interface TraceLineProps {
  readonly trace: TraceState;
  readonly actions: BenchActions;
}

/** Four taps, and both axes are proposed; nothing is a mark before it is accepted. */
export function TraceLine({ trace, actions }: TraceLineProps) {
  const line = useRef<HTMLDivElement>(null);
  useFocusKept(line, trace.kind);
  useShown(line, trace);
  const active = trace.kind !== 'offered';
  return (
    // biome-ignore lint/a11y/useSemanticElements: a field set would bring a legend of its own
    <div
      className="line line--trace"
      ref={line}
      role="group"
      aria-label="Trace both axes"
      data-placing={active || undefined}
    >
      <div className="line__name">
        Trace both axes
        <Said trace={trace} />
      </div>
      <div className="line__answer">
        <Answers trace={trace} actions={actions} />
      </div>
    </div>
  );
}

/** What is said of it. Always there, so that a change is read out; the taps are read out at the plate. */
function Said({ trace }: { readonly trace: TraceState }) {
  return (
    <>
      {trace.kind === 'offered' && (
        <small>
          {trace.lacks ?? 'Four taps; the outlines found and both axes are shown for you to judge.'}
        </small>
      )}
      {trace.kind === 'tapping' && <small>{trace.instruction}</small>}
      <div role="status">
        {trace.kind === 'running' && <small>The outlines are being looked for…</small>}
        {trace.kind === 'failed' && <small>Not traced. {trace.sentence}</small>}
        {trace.kind === 'proposed' && <Finding {...trace} />}
      </div>
    </>
  );
}

function Finding({ sure, angle, interval, reasons }: Extract<TraceState, { kind: 'proposed' }>) {
  return (
    <>
      <p className="trace__finding">
        {sure ? (
          <>
            <b>{angle}</b>, 95 % interval {interval}
          </>
        ) : (
          <>
            <b>Not sure: place by hand.</b> Somewhere in {interval}
          </>
        )}
      </p>
      {reasons.length > 0 && (
        <ul className="trace__reasons">
          {reasons.map((reason) => (
            <li key={reason}>{reason}</li>
          ))}
        </ul>
      )}
      <small>
        Look whether the thin lines follow the bone. Drag a point that is off; nothing is kept yet.
      </small>
    </>
  );
}

function Answers({ trace, actions }: TraceLineProps) {
  switch (trace.kind) {
    case 'offered':
      return (
        <PushButton disabled={trace.lacks !== null} onPress={actions.beginTrace} label="Trace both axes">
          Trace
        </PushButton>
      );
    case 'tapping':
      return (
        <>
          {trace.canStepBack && <StepBack actions={actions} />}
          <PushButton onPress={actions.stopTrace}>Stop</PushButton>
        </>
      );
    case 'running':
      return <PushButton onPress={actions.stopTrace}>Stop</PushButton>;
    case 'failed':
      return (
        <>
          {trace.canStepBack && <StepBack actions={actions} />}
          <BothSides actions={actions} />
          <PushButton onPress={actions.stopTrace}>Stop</PushButton>
        </>
      );
    case 'proposed':
      return (
        <>
          {trace.canStepBack && <StepBack actions={actions} />}
          <BothSides actions={actions} />
          <PushButton onPress={actions.refuseTrace} label="Refuse the traced axes">
            Refuse
          </PushButton>
          <Accept sure={trace.sure} actions={actions} />
        </>
      );
  }
}

/** The spoken name holds the words on the button (WCAG 2.2, 2.5.3 Label in Name). */
const Accept = ({ sure, actions }: { readonly sure: boolean } & Pick<TraceLineProps, 'actions'>) =>
  sure ? (
    <PushButton next onPress={actions.acceptTrace} label="Accept the traced axes">
      Accept
    </PushButton>
  ) : (
    <PushButton onPress={actions.acceptTrace}>Accept all the same</PushButton>
  );

const StepBack = ({ actions }: Pick<TraceLineProps, 'actions'>) => (
  <PushButton quiet onPress={actions.stepBackTrace}>
    Last point back
  </PushButton>
);

const BothSides = ({ actions }: Pick<TraceLineProps, 'actions'>) => (
  <PushButton quiet onPress={actions.bracketTrace}>
    Tap both edges
  </PushButton>
);

/** A button that was pressed and is gone leaves the keyboard at the top of the page: it stays in this line. */
function useFocusKept(line: React.RefObject<HTMLDivElement | null>, kind: TraceState['kind']): void {
  const before = useRef(kind);
  useEffect(() => {
    const changed = before.current !== kind;
    before.current = kind;
    if (!changed || document.activeElement !== document.body) return;
    line.current?.querySelector('button')?.focus({ preventScroll: true });
  }, [line, kind]);
}

/** What was found is longer than what was asked: it is brought into sight with its buttons. */
function useShown(line: React.RefObject<HTMLDivElement | null>, trace: TraceState): void {
  const answered = trace.kind === 'proposed' || trace.kind === 'failed';
  const length = trace.kind === 'proposed' ? trace.reasons.length : 0;
  // biome-ignore lint/correctness/useExhaustiveDependencies: another number of reasons makes another height
  useEffect(() => {
    if (answered) line.current?.scrollIntoView({ block: 'nearest' });
  }, [line, answered, length]);
}
