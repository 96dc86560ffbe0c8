import { expect, it } from 'vitest';
import { edgeProfile } from '../../src/trace/edge-profile.ts';
import { searchBone } from '../../src/trace/search.ts';
import { bentBone, drawn, requestFor, tubesOf } from './drawn-film.ts';

const scale = { unit: 'mm', perColumn: 0.125, perRow: 0.125 } as const;

it('is the brightness of a hollow tube beside its edges, which a formula gives', () => {
  const bone = bentBone(10);
  const film = { widthMm: 50, heightMm: 84, scale, noise: 0, seed: 1 };
  const found = searchBone(requestFor(bone, drawn({ ...film, tubes: tubesOf(bone) }), scale));
  if (!found.ok) throw new Error(found.error.kind);
  const { hypotheses, strip } = found.value.proximal;
  const [best] = hypotheses;
  // The places, mm into the bone: −2, −1.5, −1, −0.6, −0.3, 0, 0.3, 0.6, 0.9, 1.2, 1.6, 2, 2.5, 3.2.
  const profile = edgeProfile(strip, best!.stretch!, best!.pair!);
  // Of a step s the score is told s / (1 + s / 3).
  const above = profile.map((told) => told / (1 - Math.abs(told) / 3));
  const steps = above.map((step) => step - above[0]!);
  // Not at 2 mm, where the canal begins: the strip's smoothing rounds that corner off.
  // A ray that passes the middle line of a tube of radius 4 mm, canal 2 mm, at distance d.
  const chord = (radius: number, d: number) => 2 * Math.sqrt(Math.max(0, radius * radius - d * d));
  const through = (into: number) => chord(4, 4 - into) - chord(2, 4 - into);
  const unit = steps[9]! / through(1.2);
  for (const [place, into] of [
    [8, 0.9],
    [10, 1.6],
    [12, 2.5],
    [13, 3.2],
  ] as const) {
    expect(steps[place]! / unit / through(into), `${into} mm`).toBeGreaterThan(0.85);
    expect(steps[place]! / unit / through(into), `${into} mm`).toBeLessThan(1.15);
  }
  // Outside it is one even grey, darker than the edge.
  expect(above[0]!).toBeLessThan(0);
  expect(Math.abs(steps[1]!)).toBeLessThan(0.01);
});
