import type { ReactNode } from 'react';
import { Pick } from './controls/controls.tsx';

export const THEMES = ['system', 'paper', 'reading-room', 'projector'] as const;
export type ThemeChoice = (typeof THEMES)[number];

const THEME_NAME: Readonly<Record<ThemeChoice, string>> = {
  system: 'as this computer',
  paper: 'paper',
  'reading-room': 'reading room',
  projector: 'projector',
};

interface Place {
  readonly id: string;
  readonly name: string;
}

interface HeaderProps {
  readonly places: readonly Place[];
  readonly place: string;
  readonly onPlace: (id: string) => void;
  /** Where the case is kept and what can be undone. */
  readonly children: ReactNode;
  readonly theme: ThemeChoice;
  readonly onTheme: (theme: ThemeChoice) => void;
}

/** The slim line at the top: places, the state of the case, the look. */
export function Header({ places, place, onPlace, children, theme, onTheme }: HeaderProps) {
  return (
    <header className="header">
      <h1 className="header__name">Raybend</h1>
      <nav aria-label="Places" className="header__places">
        {places.map(({ id, name }) => (
          <a
            key={id}
            href={`#${id}`}
            aria-current={id === place ? 'page' : undefined}
            onClick={(event) => {
              event.preventDefault();
              onPlace(id);
            }}
          >
            {name}
          </a>
        ))}
      </nav>
      <div className="header__state">{children}</div>
      <Pick
        label="Look"
        options={THEMES.map((value) => ({ value, name: THEME_NAME[value] }))}
        value={theme}
        onChange={onTheme}
      />
    </header>
  );
}
