/**
 * The layers of `src/` and what each may import: the one table from which the dependency rules, the
 * check of the tsconfig references and the picture in DEVELOPERS.md are made.
 */
export const MAY_IMPORT = {
  geometry: [],
  tolerance: ['geometry'],
  film: ['geometry'],
  trace: ['geometry', 'film'],
  phantom: ['geometry', 'film'],
  case: ['geometry', 'tolerance'],
  drawing: ['geometry', 'case'],
  classroom: ['geometry', 'tolerance', 'phantom', 'case'],
  record: ['geometry', 'tolerance', 'film', 'case', 'drawing'],
  storage: ['geometry', 'film', 'case'],
  workers: ['geometry', 'film', 'trace', 'phantom'],
  canvas: ['geometry', 'film', 'case', 'drawing'],
  ui: ['geometry', 'tolerance', 'case', 'classroom'],
  app: [
    'geometry',
    'tolerance',
    'film',
    'trace',
    'phantom',
    'case',
    'drawing',
    'classroom',
    'record',
    'storage',
    'workers',
    'canvas',
    'ui',
  ],
  cli: ['geometry', 'tolerance', 'film', 'trace', 'phantom', 'case', 'drawing', 'record'],
} as const satisfies Readonly<Record<string, readonly string[]>>;

export type Layer = keyof typeof MAY_IMPORT;

/** Packages that only the named layers may import; any other layer importing one is an error. */
export const PACKAGE_HOME: Readonly<Record<string, readonly Layer[]>> = {
  'cornerstone-core': ['canvas'],
  konva: ['canvas'],
  'dicom-parser': ['film'],
  dcmjs: ['record'],
  'pdf-lib': ['record'],
  react: ['ui', 'app'],
  'react-dom': ['app'],
  'react-aria-components': ['ui', 'app'],
  zustand: ['app'],
  idb: ['storage'],
  comlink: ['workers', 'storage', 'app'],
  jstat: ['geometry'],
};
