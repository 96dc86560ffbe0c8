import { THEMES, type ThemeChoice } from '../ui/Header.tsx';
import { notepad } from './notepad.ts';

const KEY = 'raybend-look';

/** The look chosen last on this computer. */
export function keptTheme(): ThemeChoice {
  const kept = notepad.getItem(KEY);
  return THEMES.find((theme) => theme === kept) ?? 'system';
}

export function keepTheme(theme: ThemeChoice): void {
  notepad.setItem(KEY, theme);
}

/** Sets the look; `system` follows the computer between paper and reading room. */
export function applyTheme(theme: ThemeChoice): () => void {
  const dark = matchMedia('(prefers-color-scheme: dark)');
  const set = () => {
    document.documentElement.dataset.theme =
      theme === 'system' ? (dark.matches ? 'reading-room' : 'paper') : theme;
  };
  set();
  dark.addEventListener('change', set);
  return () => dark.removeEventListener('change', set);
}
