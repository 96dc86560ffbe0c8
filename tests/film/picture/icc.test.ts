import { describe, expect, it } from 'vitest';
import { readIcc } from '../../../src/film/picture/icc.ts';
import {
  colourProfile,
  curv,
  greyProfile,
  iccFile,
  para,
  SRGB_COLORANTS,
  srgbProfile,
  wideProfile,
} from './icc-file.ts';

const changed = (profile: Buffer, change: (copy: Buffer) => void) => {
  const copy = Buffer.from(profile);
  change(copy);
  return copy;
};

describe('ICC profiles', () => {
  it('reads the colorants and curves of a colour profile', () => {
    const profile = readIcc(wideProfile());
    if (!profile.ok || profile.value.kind !== 'colour') throw new Error('not read');
    const { colorants, curves } = profile.value;
    // As written in icc-file.ts, to the 1 / 65,536 of the format.
    expect(colorants[0][0]).toBeCloseTo(0.60974, 4);
    expect(colorants[1][1]).toBeCloseTo(0.62567, 4);
    expect(colorants[2][2]).toBeCloseTo(0.74457, 4);
    expect(curves[1](0.5)).toBeCloseTo(0.5 ** 2.19921875, 10);
  });

  it('goes on from the end of the profile that its header states', () => {
    expect(readIcc(Buffer.concat([srgbProfile(), Buffer.alloc(9)])).ok).toBe(true);
  });

  it.each([
    ['for printing inks', iccFile({ space: 'CMYK', tags: {} }), /CMYK/],
    ['in Lab', iccFile({ space: 'Lab ', tags: {} }), /neither for grey/],
    [
      'of a table',
      colourProfile(SRGB_COLORANTS, [curv(512), curv(512), curv(512)], { A2B0: Buffer.alloc(40) }),
      /A2B0/,
    ],
    ['of lightness', iccFile({ space: 'GRAY', connection: 'Lab ', tags: { kTRC: curv(512) } }), /Lab/],
    ['from device to device', iccFile({ space: 'RGB ', profileClass: 'link', tags: {} }), /no picture’s own/],
  ])('names the sort of a profile %s, which is not applied', (_, bytes, sort) => {
    expect(readIcc(bytes)).toMatchObject({
      ok: false,
      error: { kind: 'not-read', sort: expect.stringMatching(sort) as unknown },
    });
  });

  const grey = greyProfile(curv(461));
  it.each([
    ['nothing', Buffer.alloc(0)],
    ['less than a header', grey.subarray(0, 100)],
    ['zeros', Buffer.alloc(400)],
    ['less than it states', grey.subarray(0, grey.length - 4)],
    ['another signature', changed(grey, (copy) => copy.write('acsq', 36, 'latin1'))],
    ['tags without end', changed(grey, (copy) => copy.writeUInt32BE(0xffffffff, 128))],
    ['a tag beyond its end', changed(grey, (copy) => copy.writeUInt32BE(0xfffffff0, 136))],
    ['no curve', iccFile({ space: 'GRAY', tags: {} })],
    ['a curve of another type', greyProfile(Buffer.from('curf\0\0\0\0\0\0\0\0', 'latin1'))],
    ['a curve that falls', greyProfile(curv(65_535, 0))],
    ['a curve that dips', greyProfile(curv(0, 40_000, 20_000, 65_535))],
    ['a curve without light', greyProfile(curv(0, 0, 0))],
    ['an exponent of 0', greyProfile(curv(0))],
    ['a curve longer than it is', greyProfile(curv(1, 2, 3).fill(0xff, 8, 12))],
    ['a function that is not defined', greyProfile(para(5, 1, 1, 1, 1, 1, 1, 1))],
    ['a function without its parameters', greyProfile(para(4, 2.4))],
    ['a function of no number', greyProfile(para(3, 2.4, -1, 0, 1, 0.04))],
    [
      'colours that do not add up to white',
      colourProfile(
        [
          [0.9, 0.2, 0],
          [0.4, 0.7, 0.1],
          [0.1, 0.1, 0.7],
        ],
        [curv(), curv(), curv()],
      ),
    ],
  ])('takes %s for damage', (_, bytes) => {
    expect(readIcc(bytes)).toEqual({ ok: false, error: { kind: 'damaged' } });
  });
});
