import { describe, expect, it } from 'vitest';
import { drawnSet } from '../../src/classroom/drawn-sets.ts';
import { exerciseOf } from '../../src/classroom/exercise.ts';
import { classroomFileSentence, formatOf } from '../../src/classroom/file-head.ts';
import { FILM_SET_FORMAT, otherHandOf, readFilmSet, writeFilmSet } from '../../src/classroom/film-set.ts';
import { truthOfPlan } from '../../src/phantom/invent.ts';
import { errorOf, unwrap } from '../geometry/support.ts';
import { specOf } from '../phantom/make.ts';
import { NECK } from './learner.ts';

const set = { ...drawnSet('everyday', 8, 77), title: 'Week 3', note: 'Two at a time.' };
const text = writeFilmSet(set);
const changed = (change: (file: Record<string, unknown>) => void): string => {
  const file = JSON.parse(text) as Record<string, unknown>;
  change(file);
  return JSON.stringify(file);
};

describe('the file of a set', () => {
  it('comes back as it was, and draws the same films', () => {
    const back = unwrap(readFilmSet(text));
    expect(back).toEqual(set);
    const truth = (films: typeof set.films) =>
      films.map(({ spec, filmSeed }) => truthOfPlan({ spec, filmSeed, previewScale: 8 }).rays);
    expect(truth(back.films.slice(0, 2))).toEqual(truth(set.films.slice(0, 2)));
  });

  it('says what it is before anything else, and stays small', () => {
    expect(text.startsWith(`{\n "format": "${FILM_SET_FORMAT}"`)).toBe(true);
    expect(formatOf(text)).toBe(FILM_SET_FORMAT);
    // As the sheet promises: about 1.5 kB a film.
    expect(text.length / set.films.length).toBeLessThan(2000);
  });

  it('is refused with the reason: not JSON, another format, a newer version, a film that cannot be drawn', () => {
    const error = (given: string) => errorOf(readFilmSet(given));
    expect(error('{"format": ')).toMatchObject({ kind: 'not-json' });
    expect(error('{"format":"raybend-case"}')).toEqual({
      kind: 'not-this-format',
      wanted: FILM_SET_FORMAT,
      found: 'raybend-case',
    });
    expect(error(changed((file) => Object.assign(file, { version: 9 })))).toEqual({
      kind: 'version-too-new',
      version: 9,
      known: 1,
    });
    const bad = error(
      changed((file) => {
        const films = file.films as { spec: { view: { turnDegrees: number } } }[];
        films[2]!.spec.view.turnDegrees = 1000;
      }),
    );
    expect(bad).toMatchObject({ kind: 'invalid', path: 'films.2.spec' });
    expect(classroomFileSentence(bad, 'week 3.json')).toMatch(
      /^week 3\.json was not opened: it is not valid at films\.2\.spec \(view\.turnDegrees: [^.)]*\)\. Correct the file or ask for another copy\.$/,
    );
    const twice = writeFilmSet({ ...set, films: [...set.films, set.films[0]!] });
    expect(error(twice)).toMatchObject({ kind: 'invalid', problem: 'two films are called film-1' });
    expect(error(changed((file) => Object.assign(file, { answers: [] })))).toMatchObject({ kind: 'invalid' });
  });
});

describe('the other hand', () => {
  it('is the same bone, mirrored and whole', () => {
    const spec = specOf(NECK);
    const truth = truthOfPlan({ spec, filmSeed: 3, previewScale: 8 });
    const other = truthOfPlan({ spec: otherHandOf(spec), filmSeed: 3, previewScale: 8 });
    expect([truth.side, other.side]).toEqual(['right', 'left']);
    expect(other.fractures).toEqual([]);
    truth.rays.forEach((ray, index) => {
      expect(other.rays[index]!.intactLengthMm).toBeCloseTo(ray.intactLengthMm, 6);
    });
  });

  it('goes with an exercise that asks for the deformity', () => {
    const film = { id: 'a', title: '', spec: specOf(NECK), filmSeed: 3, ray: 'small' as const };
    const exercise = exerciseOf({ ...film, asked: 'deformity', otherHand: true });
    expect(exercise.films.map(({ hand }) => hand)).toEqual(['injured', 'other']);
    expect(exercise.task).toMatch(/other hand/);
    expect(exerciseOf({ ...film, asked: 'angulation', otherHand: false }).films).toHaveLength(1);
  });
});
