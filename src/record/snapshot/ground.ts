/** What a snapshot lies on: the paper of the app, white for printing, or dark for a screen in a dark room. */
export type Ground = 'paper' | 'white' | 'dark';

export interface Palette {
  readonly paper: string;
  readonly ink: string;
  readonly soft: string;
  readonly rule: string;
  readonly edge: string;
  readonly warn: string;
}

const ON_LIGHT = { ink: '#1d2228', soft: '#545d67', rule: '#d9d4c8', edge: '#857f70', warn: '#8a3b12' };

/** The tones of the app's own themes (src/ui/look/tokens.css). */
export const PALETTES: Readonly<Record<Ground, Palette>> = {
  paper: { paper: '#f7f5f0', ...ON_LIGHT },
  white: { paper: '#ffffff', ...ON_LIGHT },
  dark: {
    paper: '#17191b',
    ink: '#ece8df',
    soft: '#a9a599',
    rule: '#35383a',
    edge: '#7d7a70',
    warn: '#f0a878',
  },
};
