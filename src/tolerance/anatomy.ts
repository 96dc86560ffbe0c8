/** The five rays by finger name: numbered rays have been misprinted in the literature. */
export const RAYS = ['thumb', 'index', 'middle', 'ring', 'small'] as const;
export type Ray = (typeof RAYS)[number];

/** Part of the metacarpal that is broken, from the knuckle down. */
export const REGIONS = ['head', 'neck', 'shaft', 'base'] as const;
export type Region = (typeof REGIONS)[number];

export const VIEWS = ['pa', 'oblique', 'lateral'] as const;
export type View = (typeof VIEWS)[number];

export const PATTERNS = ['transverse', 'oblique', 'spiral', 'comminuted', 'articular'] as const;
export type Pattern = (typeof PATTERNS)[number];

export type AgeGroup = 'adult' | 'child';

/** How an axis was constructed. The limit set and the published normal name the one they belong to. */
export const CONSTRUCTIONS = ['free', 'cortex-pair', 'canal', 'dorsal-cortex', 'head'] as const;
export type Construction = (typeof CONSTRUCTIONS)[number];
