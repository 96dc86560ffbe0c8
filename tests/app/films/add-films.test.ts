import { describe, expect, it } from 'vitest';
import { addFilms } from '../../../src/app/films/add-films.ts';
import { failure } from '../../../src/geometry/result.ts';
import { caseOf } from '../../case/samples.ts';
import { said, shellWith } from '../support.ts';

const onto = { hand: 'injured', day: null } as const;

describe('films that are added together', () => {
  it('are looked at one and all, also when the file of one is gone', async () => {
    const shell = shellWith(caseOf(), {
      decoder: { decode: async () => failure({ kind: 'decoder-stopped', detail: 'no picture' }) },
    });
    const gone = { bytes: () => Promise.reject(new Error('moved away')), fileName: 'one.dcm', onto };
    const damaged = { bytes: async () => new ArrayBuffer(8), fileName: 'two.dcm', onto };
    const done: number[] = [];
    await addFilms(shell, [gone, damaged], (count) => done.push(count));
    expect(done).toEqual([1, 2]);
    expect(said(shell)[0]).toMatch(/one\.dcm could not be read \(moved away\)/);
    expect(said(shell)[1]).toMatch(/two\.dcm.*no picture/);
  });
});
