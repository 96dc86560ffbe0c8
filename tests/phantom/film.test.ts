import { describe, expect, it } from 'vitest';
import { defaultSpec } from '../../src/phantom/default-specs.ts';
import { inventFilm, prepareFilm } from '../../src/phantom/invent.ts';
import { seededRandom } from '../../src/phantom/random.ts';
import { renderRows } from '../../src/phantom/render.ts';
import { PHANTOM_RAYS } from '../../src/phantom/spec.ts';
import { toFilm } from '../../src/phantom/to-film.ts';
import { alone, filmOf, planOf, SMALL, specOf } from './make.ts';

const NECK = { ray: 'small', region: 'neck', apexDorsalDegrees: 45 } as const;

const same = (p: Uint16Array, q: Uint16Array): boolean =>
  p.length === q.length && p.every((v, i) => v === q[i]);

describe('an invented film', () => {
  it('is the same for the same seed and another for another', () => {
    const request = { fractures: [NECK], view: { turnDegrees: 97 }, film: SMALL };
    const first = filmOf(request, 7);
    expect(same(filmOf(request, 7).pixels, first.pixels)).toBe(true);
    expect(filmOf(request, 7).truth).toEqual(first.truth);
    const other = filmOf(request, 8);
    expect(same(other.pixels, first.pixels)).toBe(false);
    expect(other.truth.rays[2]!.lengthMm).not.toBe(first.truth.rays[2]!.lengthMm);
  });

  it('calls its source of chance once', () => {
    let calls = 0;
    const random = seededRandom(3);
    inventFilm(specOf({ film: { columns: 40, rows: 50, pitchMm: 2 } }), () => {
      calls += 1;
      return random();
    });
    expect(calls).toBe(1);
  });

  it.each([0.6, 0.25])('drawn in bands is the film drawn whole, %s mm pixels', (pitchMm) => {
    const plan = planOf(
      { fractures: [NECK], view: { turnDegrees: 45 }, film: { columns: 160, rows: 190, pitchMm } },
      5,
    );
    const { exposure } = prepareFilm(plan);
    const whole = renderRows(exposure, 0, 190);
    // Another preparation, as another worker would make it, and cuts that fall anywhere.
    const again = prepareFilm(JSON.parse(JSON.stringify(plan)) as typeof plan).exposure;
    const joined = new Uint16Array(whole.length);
    for (const [from, to] of [
      [0, 61],
      [61, 62],
      [62, 135],
      [135, 190],
    ] as const) {
      joined.set(renderRows(again, from, to), from * 160);
    }
    expect(same(joined, whole)).toBe(true);
  });

  it('keeps within its bits and fills most of them', () => {
    for (const bitsStored of [12, 14] as const) {
      const { pixels } = filmOf({ film: { ...SMALL, bitsStored } }, 2);
      const most = 2 ** bitsStored - 1;
      const greatest = pixels.reduce((p, q) => Math.max(p, q), 0);
      expect(greatest).toBeLessThanOrEqual(most);
      expect(greatest).toBeGreaterThan(0.8 * most);
    }
  });

  it('has a dark background, grey skin and bright bone', () => {
    const { pixels, truth } = filmOf({ film: SMALL, extras: { marker: false } }, 4);
    const middle = truth.rays[2]!;
    const at = (column: number, row: number): number => {
      let sum = 0;
      for (let y = -2; y <= 2; y += 1)
        for (let x = -2; x <= 2; x += 1) sum += pixels[(Math.round(row) + y) * 300 + Math.round(column) + x]!;
      return sum / 25;
    };
    const index = truth.rays[1]!;
    const bone = at(
      (middle.base.column + middle.headCentre.column) / 2,
      (middle.base.row + middle.headCentre.row) / 2,
    );
    // Between two shafts there is only soft tissue.
    const skin = at(
      (middle.base.column + middle.headCentre.column + index.base.column + index.headCentre.column) / 4,
      (middle.base.row + middle.headCentre.row) / 2,
    );
    const background = at(20, 380);
    expect(background).toBeLessThan(0.15 * skin);
    expect(bone).toBeGreaterThan(1.25 * skin);
  });

  it.each(['left', 'right'] as const)('bends the fingers of a %s hand to the palm', (side) => {
    const { pixels, truth } = filmOf(
      {
        hand: { side, pose: 'half-flexed' },
        view: { turnDegrees: 90 },
        film: { ...SMALL, evenness: 0 },
        extras: { marker: false },
      },
      4,
    );
    const middle = truth.rays[2]!;
    // Everything beyond the knuckles, weighted by grey.
    let [weight, moment] = [0, 0];
    const last = Math.floor(middle.headCentre.row - 3 * middle.headRadiusPixels);
    for (let row = 0; row < last; row += 1) {
      for (let column = 0; column < SMALL.columns; column += 1) {
        const value = Math.max(0, pixels[row * SMALL.columns + column]! - 400);
        weight += value;
        moment += value * (column + 0.5);
      }
    }
    const volarward = -(moment / weight - middle.headCentre.column) * middle.dorsal.columns;
    expect(volarward).toBeGreaterThan(middle.headRadiusPixels);
  });

  it('gets noisier with fewer photons', () => {
    const spread = (photonsPerPixel: number): number => {
      const { pixels } = filmOf({ film: { ...SMALL, detail: 0 }, exposure: { photonsPerPixel } }, 4);
      const truthless = filmOf(
        { film: { ...SMALL, detail: 0 }, exposure: { photonsPerPixel: 1e6 } },
        4,
      ).pixels;
      let sum = 0;
      let count = 0;
      pixels.forEach((value, i) => {
        const clean = truthless[i]!;
        if (clean < 600 || clean > 2500) return;
        sum += (value - clean) ** 2;
        count += 1;
      });
      return Math.sqrt(sum / count);
    };
    // Poisson: a hundredth of the photons makes ten times the noise in density.
    const ratio = spread(300) / spread(30_000);
    expect(ratio).toBeGreaterThan(7);
    expect(ratio).toBeLessThan(13);
  });

  it('draws every ray broken in every region, with every extra', () => {
    for (const [i, region] of (['head', 'neck', 'shaft', 'base'] as const).entries()) {
      const { pixels, truth } = filmOf(
        {
          hand: { side: i % 2 === 0 ? 'left' : 'right', boneDensity: 0.7, pose: 'half-flexed' },
          view: { turnDegrees: 30 * i },
          fractures: PHANTOM_RAYS.map((ray) => ({
            ray,
            region,
            apexDorsalDegrees: 30,
            axialTurnDegrees: 15,
            shorteningMm: 3,
            fragments: i % 2 === 0 ? 'butterfly' : 'comminuted',
            callus: 0.6,
          })),
          film: { columns: 150, rows: 200, pitchMm: 1.2 },
          extras: { splint: true, knownObject: { shape: i % 2 === 0 ? 'ball' : 'disc', diameterMm: 25 } },
        },
        i,
      );
      expect(truth.fractures.map((fracture) => fracture.region)).toEqual(Array(5).fill(region));
      expect(pixels.some((value) => value > 2500)).toBe(true);
    }
  });

  it('shows a splint, a cast and a thinner cortex', () => {
    const mean = ({ pixels }: { pixels: Uint16Array }): number =>
      pixels.reduce((p, q) => p + q, 0) / pixels.length;
    const plain = mean(filmOf({ film: SMALL }, 9));
    const gutter = mean(filmOf({ film: SMALL, extras: { splint: true } }, 9));
    expect(gutter).toBeGreaterThan(1.05 * plain);
    // All round is more than half round.
    expect(mean(filmOf({ film: SMALL, extras: { cast: true } }, 9))).toBeGreaterThan(gutter);
    const bone = (boneDensity: number): number => {
      const request = alone('middle', 0);
      return mean(filmOf({ ...request, hand: { ...request.hand, boneDensity } }, 9));
    };
    expect(bone(0.6)).toBeLessThan(0.9 * bone(1));
  });

  it('has a preview of the same hand in the same place', () => {
    const spec = defaultSpec('small-neck-lateral');
    const full = inventFilm(
      { ...spec, film: { ...spec.film, columns: 600, rows: 800, pitchMm: 0.3 } },
      seededRandom(2),
    );
    const small = inventFilm(
      { ...spec, film: { ...spec.film, columns: 600, rows: 800, pitchMm: 0.3 } },
      seededRandom(2),
      4,
    );
    expect([small.columns, small.rows]).toEqual([150, 200]);
    const [fine, coarse] = [full.truth.fractures[0]!, small.truth.fractures[0]!];
    expect(coarse.proximalBrokenEnd.column * 4).toBeCloseTo(fine.proximalBrokenEnd.column, 6);
    expect(coarse.proximalBrokenEnd.row * 4).toBeCloseTo(fine.proximalBrokenEnd.row, 6);
    let [p, q, pp, qq, pq, n] = [0, 0, 0, 0, 0, 0];
    for (let row = 0; row < 200; row += 1) {
      for (let column = 0; column < 150; column += 1) {
        let sum = 0;
        for (let y = 0; y < 4; y += 1)
          for (let x = 0; x < 4; x += 1) sum += full.pixels[(4 * row + y) * 600 + 4 * column + x]!;
        const [a, b] = [sum / 16, small.pixels[row * 150 + column]!];
        [p, q, pp, qq, pq, n] = [p + a, q + b, pp + a * a, qq + b * b, pq + a * b, n + 1];
      }
    }
    const correlation =
      (pq / n - (p / n) * (q / n)) / Math.sqrt((pp / n - (p / n) ** 2) * (qq / n - (q / n) ** 2));
    expect(correlation).toBeGreaterThan(0.98);
  });

  it('becomes a film that says where its spacing came from', () => {
    const invented = filmOf({ film: { ...SMALL, statedPlane: 'patient' }, hand: { side: 'left' } }, 1);
    const film = toFilm(invented);
    expect(film.spacing).toMatchObject({
      kind: 'millimetres',
      origin: 'invented-film',
      plane: 'patient',
      rowSpacingMm: invented.truth.statedSpacingMm,
      estimatedMagnification: invented.truth.magnification,
    });
    expect(film.facts).toMatchObject({ laterality: 'L', viewPosition: 'PA', burnedIn: false });
    expect(film.levels[0]!.pixels).toBe(invented.pixels);
    const detector = toFilm(filmOf({ film: SMALL }, 1));
    expect(detector.spacing).toMatchObject({ plane: 'detector', columnSpacingMm: 0.6 });
  });
});
