import { describe, expect, it } from 'vitest';
import * as codes from '../../../src/record/dicom/codes.ts';
import { itNeeds, outputOf } from '../../outside-tools.ts';

/**
 * Every code of the standard is looked up by value in the dictionary of pydicom 2.3.1 (pydicom/sr/_concepts_dict.py,
 * generated from PS3.16) and must have this meaning there.
 */
const LOOK_UP = `
import json, sys
from pydicom.sr import _concepts_dict
found = {}
for scheme in ('DCM', 'SCT', 'UCUM'):
    for concepts in _concepts_dict.concepts[scheme].values():
        for value, (meaning, _) in concepts.items():
            found.setdefault(scheme + ' ' + value, []).append(meaning)
print(json.dumps({key: found.get(key, []) for key in json.load(sys.stdin)}))
`;

const standard = [
  ...Object.values(codes.CODES),
  ...Object.values(codes.VIEW_CODES),
  ...Object.values(codes.UNITS),
];
const own = [
  codes.RAY_CODES,
  codes.OWN_CODES,
  codes.QUANTITY_CODES,
  codes.METHOD_CODES,
  codes.APEX_CODES,
  codes.PROVENANCE_CODES,
  codes.CONSTRUCTION_CODES,
  codes.ROLE_CODES,
].flatMap((table) => Object.values(table));

describe('codes', () => {
  itNeeds('/usr/bin/python3')('have the meanings that pydicom has for them', () => {
    const keys = standard.map(({ scheme, value }) => `${scheme} ${value}`);
    const found = JSON.parse(outputOf('/usr/bin/python3', ['-c', LOOK_UP], JSON.stringify(keys)));
    const lower = (meanings: readonly string[]) => meanings.map((meaning) => meaning.toLowerCase());
    for (const { scheme, value, meaning } of standard) {
      expect(lower(found[`${scheme} ${value}`]), `${scheme} ${value}`).toContain(meaning.toLowerCase());
    }
  });

  it('fit their VRs: 16 characters of value and scheme, 64 of meaning (PS3.5 6.2, SH and LO)', () => {
    for (const { scheme, value, meaning } of [...standard, ...own]) {
      expect(value.length, value).toBeLessThanOrEqual(16);
      expect(scheme.length, scheme).toBeLessThanOrEqual(16);
      expect(meaning.length, meaning).toBeLessThanOrEqual(64);
    }
  });

  it('keep our own to our own scheme, each value with one meaning', () => {
    const meanings = new Map<string, string>();
    for (const { scheme, value, meaning } of own) {
      expect(scheme).toBe('99RAYBEND');
      expect(value).toMatch(/^[A-Z0-9-]+$/);
      expect(meanings.get(value) ?? meaning, value).toBe(meaning);
      meanings.set(value, meaning);
    }
  });
});
