/**
 * A closed surface as a stack of rings: `rows` rings of `columns` points each, the first and the last ring
 * drawn together to a point (or to a line). Every bone, shell, marrow cavity, ball and splint is one.
 *
 * Rings follow one another along a direction d and run round it so that (first point, a quarter turn on, d)
 * is left-handed; all meshes of this folder keep to that, so one sign serves to tell front from back.
 */
export interface RingMesh {
  readonly rows: number;
  readonly columns: number;
  /** x, y, z of each point, ring by ring. */
  readonly points: Float64Array;
}

/** How finely a surface is divided. */
export interface Fineness {
  /** Wanted length of the sides of a facet along the bone, mm. */
  readonly alongMm: number;
  /** Points in each ring. */
  readonly around: number;
}
