import { expect, it } from 'vitest';
import { crc32 } from '../../../src/film/picture/crc32.ts';

it('gives the check value of CRC-32', () => {
  // ISO 3309, over the nine digits: CBF43926, the check value in common catalogues; the chunk IEND: AE426082, in every PNG file.
  expect(crc32(new TextEncoder().encode('123456789'))).toBe(0xcbf43926);
  expect(crc32(new TextEncoder().encode('IEND'))).toBe(0xae426082);
});
