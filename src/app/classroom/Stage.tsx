import { useCallback, useEffect, useRef, useState } from 'react';
import { Plate } from '../../canvas/plate.ts';
import type { CaseDocument } from '../../case/document.ts';
import { markedFilm } from '../../case/film-marks.ts';
import { formatReading } from '../../case/format.ts';
import { type DemoStep, documentOfStep } from '../../classroom/demonstration.ts';
import { ownMark } from '../../drawing/scene.ts';
import { degrees, filmPoint } from '../../geometry/units.ts';
import type { LimitSet } from '../../tolerance/limit-set.ts';
import { PushButton, SwitchButton } from '../../ui/controls/controls.tsx';
import { assessmentOf } from '../assessment.ts';
import { IGNORED } from './ignored.ts';
import type { Demonstrated } from './keepsake.ts';
import { PointerInk } from './pointer-ink.ts';

interface StageProps {
  readonly shown: Demonstrated;
  readonly steps: readonly DemoStep[];
  readonly limitSets: readonly LimitSet[];
  readonly onHandout: () => void;
  readonly onLeave: () => void;
}

/** How far a key moves the spotlight, CSS pixels. */
const SPOT_STEP = 40;

/** A measurement step by step for a class: large strokes, a spotlight, a pointer that fades, nothing personal. */
export function Stage({ shown, steps, limitSets, onHandout, onLeave }: StageProps) {
  const root = useRef<HTMLDivElement>(null);
  const host = useRef<HTMLDivElement>(null);
  const overlay = useRef<HTMLCanvasElement>(null);
  const plate = useRef<Plate | null>(null);
  const ink = useRef<PointerInk | null>(null);
  const [index, setIndex] = useState(0);
  const [dark, setDark] = useState(true);
  const [spotlight, setSpotlight] = useState(false);
  const [blank, setBlank] = useState(false);
  const step = steps[Math.min(index, steps.length - 1)];
  const go = useCallback(
    (by: number) => {
      setBlank(false);
      setIndex((now) => Math.min(steps.length - 1, Math.max(0, now + by)));
    },
    [steps.length],
  );

  useEffect(() => {
    if (host.current === null || overlay.current === null) return;
    const made = new Plate(host.current, IGNORED);
    plate.current = made;
    made.setFilm(shown.film, shown.record.id);
    made.setLight(shown.light);
    ink.current = new PointerInk(overlay.current);
    // What lies behind is out of sight, and out of reach of keys and screen readers too.
    const app = document.getElementById('root');
    app?.setAttribute('inert', '');
    root.current?.focus();
    return () => {
      app?.removeAttribute('inert');
      made.destroy();
      ink.current?.destroy();
      plate.current = null;
      ink.current = null;
    };
  }, [shown]);

  useEffect(() => {
    if (step === undefined || plate.current === null) return;
    showStep(plate.current, host.current, shown, step, limitSets);
    ink.current?.clear();
  }, [shown, step, limitSets]);
  useEffect(() => ink.current?.setSpotlight(spotlight), [spotlight]);

  useEffect(() => {
    const key = (event: KeyboardEvent) => {
      const onButton = event.target instanceof HTMLElement && event.target.closest('button') !== null;
      if (onButton && (event.key === ' ' || event.key === 'Enter')) return;
      const handled = onStageKey(event, {
        go,
        first: () => setIndex(0),
        last: () => setIndex(steps.length - 1),
        spotlight: () => setSpotlight((on) => !on),
        dark: () => setDark((on) => !on),
        blank: () => setBlank((on) => !on),
        nudge: (dx, dy) => ink.current?.nudge(dx, dy),
        fullScreen: () => void toggleFullScreen(root.current),
        leave: onLeave,
      });
      if (!handled) return;
      event.preventDefault();
      event.stopImmediatePropagation();
    };
    window.addEventListener('keydown', key, true);
    return () => window.removeEventListener('keydown', key, true);
  }, [go, steps.length, onLeave]);

  if (step === undefined) return null;
  const at = (event: React.PointerEvent): [number, number] => {
    const box = event.currentTarget.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  };
  return (
    <div
      ref={root}
      className="stage"
      data-room={dark ? 'dark' : 'light'}
      role="dialog"
      aria-modal="true"
      aria-label="Demonstration"
      tabIndex={-1}
    >
      <div className="stage__film">
        <div ref={host} className="plate__host" inert />
        <canvas
          ref={overlay}
          className="stage__ink"
          role="img"
          aria-label={`${step.title}. Drag to point.`}
          onPointerDown={(event) => {
            event.currentTarget.setPointerCapture(event.pointerId);
            ink.current?.begin(...at(event));
          }}
          onPointerMove={(event) => {
            ink.current?.point(...at(event));
            if (event.buttons > 0) ink.current?.extend(...at(event));
          }}
          onPointerUp={() => ink.current?.end()}
          onPointerCancel={() => ink.current?.end()}
        />
        {blank && <div className="stage__blank" />}
      </div>
      <div className="stage__words">
        <p className="stage__number">
          {index + 1} of {steps.length}
        </p>
        <div aria-live="polite">
          <h2>{step.title}</h2>
          <p>{step.words}</p>
        </div>
        <div className="stage__controls">
          <PushButton onPress={() => go(-1)} disabled={index === 0}>
            Back
          </PushButton>
          <PushButton next onPress={() => go(1)} disabled={index === steps.length - 1}>
            Next
          </PushButton>
          <SwitchButton on={spotlight} onChange={setSpotlight}>
            Spotlight
          </SwitchButton>
          <SwitchButton on={dark} onChange={setDark}>
            Dark room
          </SwitchButton>
          <PushButton onPress={() => void toggleFullScreen(root.current)}>Full screen</PushButton>
          <PushButton onPress={onHandout}>Handout</PushButton>
          <PushButton quiet onPress={onLeave}>
            Leave
          </PushButton>
        </div>
        <p className="stage__keys">
          Page Down and Page Up, or the arrows, step. S spotlight, with Shift and arrows to move it. D dark. B
          blank. F full screen. Drag on the film to point.
        </p>
      </div>
    </div>
  );
}

function showStep(
  plate: Plate,
  host: HTMLElement | null,
  { document, record, film }: Demonstrated,
  step: DemoStep,
  limitSets: readonly LimitSet[],
): void {
  const shown: CaseDocument = documentOfStep(document, record.id, step);
  plate.setMarks({
    filmId: record.id,
    marks: Object.values(markedFilm(shown, record.id)?.marks ?? {}).map(ownMark),
    showAngle: step.showAngle,
    strokes: 'projector',
  });
  const reading = assessmentOf(shown, limitSets).readings.find(
    (one) => one.filmId === record.id && one.quantity === 'angulation',
  );
  if (reading?.state === 'known') {
    const { value, plusMinus } = formatReading(reading);
    plate.setReadout(record.id, { value, uncertainty: plusMinus });
  }
  if (step.part === null) {
    plate.wholeFilm();
    return;
  }
  const { column, row, columns, rows } = step.part;
  const [width, height] = [host?.clientWidth ?? 800, host?.clientHeight ?? 600];
  const perRow =
    record.spacing.kind === 'millimetres'
      ? record.spacing.rowSpacingMm / record.spacing.columnSpacingMm
      : record.spacing.rowToColumn;
  plate.setView({
    centre: filmPoint(Math.min(film.columns, column + columns / 2), Math.min(film.rows, row + rows / 2)),
    magnification: Math.min(width / columns, height / (rows * perRow)),
    turn: degrees(0),
    mirrored: false,
  });
}

interface StageKeys {
  readonly go: (by: number) => void;
  readonly first: () => void;
  readonly last: () => void;
  readonly spotlight: () => void;
  readonly dark: () => void;
  readonly blank: () => void;
  readonly nudge: (dx: number, dy: number) => void;
  readonly fullScreen: () => void;
  readonly leave: () => void;
}

/** What a key or a presenter's remote does; remotes send Page Up, Page Down, and B or a full stop to blank. */
function onStageKey(event: KeyboardEvent, keys: StageKeys): boolean {
  if (event.ctrlKey || event.metaKey || event.altKey) return false;
  const { key, shiftKey } = event;
  if (shiftKey && key.startsWith('Arrow')) {
    const across = key === 'ArrowLeft' ? -SPOT_STEP : key === 'ArrowRight' ? SPOT_STEP : 0;
    const down = key === 'ArrowUp' ? -SPOT_STEP : key === 'ArrowDown' ? SPOT_STEP : 0;
    keys.nudge(across, down);
    return true;
  }
  switch (key) {
    case 'PageDown':
    case 'ArrowRight':
    case 'ArrowDown':
    case ' ':
    case 'Enter':
      keys.go(1);
      return true;
    case 'PageUp':
    case 'ArrowLeft':
    case 'ArrowUp':
    case 'Backspace':
      keys.go(-1);
      return true;
    case 'Home':
      keys.first();
      return true;
    case 'End':
      keys.last();
      return true;
    case 'Escape':
      // The browser leaves full screen by itself on Escape; only then does Escape leave the demonstration.
      if (document.fullscreenElement === null) keys.leave();
      return true;
  }
  const letters: Readonly<Record<string, () => void>> = {
    s: keys.spotlight,
    d: keys.dark,
    b: keys.blank,
    '.': keys.blank,
    f: keys.fullScreen,
  };
  const act = letters[key.toLowerCase()];
  act?.();
  return act !== undefined;
}

async function toggleFullScreen(element: HTMLElement | null): Promise<void> {
  if (document.fullscreenElement !== null) await document.exitFullscreen();
  // Refused where the page is framed or the person has forbidden it; the stage fills the window all the same.
  else await element?.requestFullscreen?.().catch(() => undefined);
}
