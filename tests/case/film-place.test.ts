import { describe, expect, it } from 'vitest';
import type { FilmPlace } from '../../src/case/document.ts';
import { pictureKey, placeOf } from '../../src/case/film-place.ts';
import { film } from './samples.ts';

const at = (place?: FilmPlace) => pictureKey(film('film-1', place === undefined ? {} : { place }));

describe('where in its file a film lies', () => {
  it('is the whole of the first picture unless it is said', () => {
    expect(placeOf(film('film-1'))).toEqual({ frame: 0, part: null });
    expect(at()).toBe(film('film-1').sha256);
    expect(at({ frame: 0, part: null })).toBe(at());
  });

  it('tells frames and parts of one file apart', () => {
    const rectangle = { kind: 'rectangle', column: 0, row: 0, columns: 227, rows: 373 } as const;
    const keys = [
      at(),
      at({ frame: 1, part: null }),
      at({ frame: 0, part: rectangle }),
      at({ frame: 1, part: rectangle }),
      at({ frame: 0, part: { ...rectangle, column: 227 } }),
      at({ frame: 0, part: { ...rectangle, columns: 226 } }),
    ];
    expect(new Set(keys).size).toBe(keys.length);
  });
});
