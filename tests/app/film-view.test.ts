import { describe, expect, it } from 'vitest';
import { statedView } from '../../src/app/films/film-view.ts';

describe('the view a file states', () => {
  // Codes and meanings of PS3.16 CID 4010 as pydicom 2.3.1 lists them, with the older SNOMED-RT forms of its map.
  it.each([
    ['272479007', 'R-40888', 'pa'], // postero-anterior
    ['399348003', 'R-10206', 'pa'], // antero-posterior
    ['399033003', 'R-10202', 'pa'], // frontal
    ['399067008', 'R-102CD', 'lateral'], // lateral
    ['399173006', 'R-10236', 'lateral'], // left lateral
    ['399198007', 'R-10232', 'lateral'], // right lateral
    ['399352003', 'R-10228', 'lateral'], // lateral-medial
    ['399260004', 'R-10224', 'lateral'], // medial-lateral
    ['399182000', 'R-102C1', 'oblique'], // oblique
    ['399059000', 'R-10216', 'oblique'], // postero-anterior oblique
    ['399312000', 'R-10208', 'oblique'], // antero-posterior oblique
    ['260427002', 'R-40783', 'oblique'], // lateral oblique
    ['260426006', 'R-40782', 'oblique'], // medial oblique
    ['399184004', 'R-10238', 'oblique'], // left oblique
    ['399236003', 'R-10234', 'oblique'], // right oblique
  ])('%s, formerly %s, is %s', (code, older, view) => {
    expect(statedView({ viewPosition: null, viewCode: code })).toBe(view);
    expect(statedView({ viewPosition: null, viewCode: older })).toBe(view);
  });

  it('is the code’s before the older text’s, and nothing for words of its own', () => {
    expect(statedView({ viewPosition: 'PA', viewCode: '399067008' })).toBe('lateral');
    expect(statedView({ viewPosition: 'PA', viewCode: '399011000' })).toBe('pa'); // a code of no view used here
    expect(statedView({ viewPosition: 'RLO' })).toBe('oblique');
    expect(statedView({ viewPosition: 'SKYLINE' })).toBeNull();
    expect(statedView({ viewPosition: null })).toBeNull();
    // Names that every object of the language has.
    expect(statedView({ viewPosition: 'toString', viewCode: 'constructor' })).toBeNull();
  });
});
