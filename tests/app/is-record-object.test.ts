import { expect, it } from 'vitest';
import { isRecordObject, START_BYTES } from '../../src/app/leaving/is-record-object.ts';
import { written } from '../record/dicom/checked.ts';
import { sourceBytes } from '../record/sample.ts';

/** PS3.4 B.5: Comprehensive SR, Greyscale Softcopy Presentation State, Secondary Capture. */
it.each([
  ['a report', '1.2.840.10008.5.1.4.1.1.88.33', true],
  ['a presentation state', '1.2.840.10008.5.1.4.1.1.11.1', true],
  ['a picture', '1.2.840.10008.5.1.4.1.1.7', false],
] as const)('tells %s by its file meta information', (_, SOPClassUID, expected) => {
  const start = written({ SOPClassUID, SOPInstanceUID: '2.25.7' }).subarray(0, START_BYTES);
  expect(isRecordObject(start)).toBe(expected);
});

it('takes no film and no text for one', () => {
  expect(isRecordObject(sourceBytes('film-1').subarray(0, START_BYTES))).toBe(false);
  expect(isRecordObject(new TextEncoder().encode('1.2.840.10008.5.1.4.1.1.88.33'))).toBe(false);
  expect(isRecordObject(new Uint8Array())).toBe(false);
});
