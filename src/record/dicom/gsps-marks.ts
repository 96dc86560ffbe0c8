import type { MarkRecord } from '../../case/document.ts';
import { CONSTRUCTION_CODES, PROVENANCE_CODES, RAYBEND_SCHEME, ROLE_CODES } from './codes.ts';

/** The layer that holds the control points; CS, at most 16 characters. */
export const CONTROL_POINT_LAYER = 'RAYBEND_POINTS';

/**
 * What a group of control points is, as the label of the group (LO, at most 64 characters): scheme, role,
 * construction and provenance by the values of our own codes, e.g.
 * `99RAYBEND/DISTAL-AXIS/HEAD/PLACED`.
 */
export const groupLabel = ({ role, shape, provenance }: MarkRecord): string =>
  [
    RAYBEND_SCHEME,
    ROLE_CODES[role].value,
    CONSTRUCTION_CODES[shape.construction].value,
    PROVENANCE_CODES[provenance].value,
  ].join('/');
