import type { Dial } from '../../classroom/dial.ts';
import { DIAL_GROUPS, DIALS, isIdle } from '../../classroom/dials.ts';
import type { SetFilm } from '../../classroom/film-set.ts';
import { Choice } from '../controls/controls.tsx';
import { DialSlider } from './DialSlider.tsx';

interface DialLineProps {
  readonly dial: Dial;
  readonly spec: SetFilm['spec'];
  readonly onSpec: (spec: SetFilm['spec']) => void;
}

/** One dial of an invented film, whichever kind it is. */
export function DialLine({ dial, spec, onSpec }: DialLineProps) {
  if (dial.kind === 'slider') {
    return (
      <DialSlider
        dial={dial}
        value={dial.get(spec)}
        disabled={isIdle(dial, spec)}
        onChange={(value) => onSpec(dial.set(spec, value))}
      />
    );
  }
  return (
    <div className="dial dial--pick">
      <Choice
        label={dial.name}
        options={dial.options}
        value={dial.get(spec)}
        onChange={(value) => onSpec(dial.set(spec, value))}
      />
      <small className="dial__teaches">{dial.teaches}</small>
    </div>
  );
}

interface DialSheetProps {
  readonly spec: SetFilm['spec'];
  readonly onSpec: (spec: SetFilm['spec']) => void;
}

/** Every dial, group by group; the first two stand open. */
export function DialSheet({ spec, onSpec }: DialSheetProps) {
  return (
    <div className="dials">
      {DIAL_GROUPS.map(({ id, title }, index) => (
        <details key={id} className="dials__group" open={index === 0 || id === 'view'}>
          <summary>{title}</summary>
          {DIALS.filter(({ group }) => group === id).map((dial) => (
            <DialLine key={dial.id} dial={dial} spec={spec} onSpec={onSpec} />
          ))}
        </details>
      ))}
    </div>
  );
}
