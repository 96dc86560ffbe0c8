import type { Assessment } from '../../case/assessment.ts';
import { inCourseOrder } from '../../case/course/order.ts';
import type { CaseDocument, FilmRecord, InjuryRecord } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { injuryOf } from '../../case/fixed-records.ts';
import type { KnownReading } from '../../case/reading.ts';
import { filmNames } from '../../case/readings/names.ts';
import { failure, type Result, success } from '../../geometry/result.ts';
import { degrees } from '../../geometry/units.ts';
import { knownReadings } from '../readings.ts';
import { type Block, gap, paragraph, type Setting, stylesAt } from './blocks.ts';
import { drawMetacarpal } from './bone-drawing.ts';
import type { FaceFiles, Faces } from './faces.ts';
import { heightOf, pour } from './flow.ts';
import { INK } from './ink.ts';
import { beginPdf, finishPdf, type Making, type PdfFile } from './page.ts';
import { PATIENT_WORDS, type PatientLanguage, type PatientWords } from './patient-words.ts';
import type { PdfFailure } from './pdf-failure.ts';
import { lineHeight, PAGE, Sheet, type Style } from './sheet.ts';

export interface PatientPdfInput {
  readonly document: CaseDocument;
  readonly assessment: Assessment;
  readonly faces: FaceFiles;
  readonly language: PatientLanguage;
  /** What the clinic wants to say in its own words; null leaves lines to write on. */
  readonly clinicWords: string | null;
}

/** The bend as the sheet says it: whole degrees, and no sign. */
interface Bend {
  readonly degrees: number;
  readonly least: number;
  readonly most: number;
  /** Of the film, after the injury; null: not said. */
  readonly day: number | null;
  /** Of a healthy bone; null where none was taken off. */
  readonly normal: number | null;
}

/**
 * A sheet for the patient: which bone, how far it is bent, beside drawings of a straight bone and of one bent by
 * that angle; what it means, what may happen next, when to get help at once, and room for the clinic.
 *
 * Fails with `no-angle` where no angle of the injured hand is known, with `undated-films` where it cannot be told which
 * of several is the latest, and as the other pages do.
 */
export async function patientPdf(input: PatientPdfInput): Promise<Result<PdfFile, PdfFailure>> {
  const found = latestBend(input.document, input.assessment);
  if (!found.ok) return found;
  const bend = found.value;
  const words = PATIENT_WORDS[input.language];
  const making = await beginPdf(input.faces, words.tag);
  if (!making.ok) return making;
  const tooLong = drawSheet(making.value, input, words, bend);
  return tooLong === null ? finishPdf(making.value) : failure(tooLong);
}

const VIEW_ORDER = ['lateral', 'oblique', 'pa', null] as const;

/**
 * The latest angle of the injured hand, from the side where there is one. Fails with `no-angle`, and with
 * `undated-films` where it has rivals in the same view and a day is missing.
 */
function latestBend(document: CaseDocument, assessment: Assessment): Result<Bend, PdfFailure> {
  const known = knownReadings(assessment);
  const readingOf = (film: FilmRecord, quantity: KnownReading['quantity']) =>
    known.find((one) => one.filmId === film.id && one.quantity === quantity);
  const all = markedFilms(document);
  const [latest, ...others] = inCourseOrder(all)
    .toReversed()
    .map(({ film }) => film)
    .filter((film) => film.hand === 'injured' && readingOf(film, 'angulation') !== undefined)
    // Of one view the newest stays first; of one day, the film after the reduction.
    .toSorted((one, other) => VIEW_ORDER.indexOf(one.view) - VIEW_ORDER.indexOf(other.view));
  const angle = latest && readingOf(latest, 'angulation');
  if (latest === undefined || angle === undefined) return failure({ kind: 'no-angle' });
  const rivals = [latest, ...others.filter(({ view }) => view === latest.view)];
  const undated = rivals.filter(({ day }) => day === null);
  if (rivals.length > 1 && undated.length > 0) {
    const names = filmNames(all.map(({ film }) => film));
    return failure({ kind: 'undated-films', films: undated.map(({ id }) => names.get(id) ?? 'film') });
  }
  const size = Math.abs(angle.value);
  const normal = Math.round(Math.abs(readingOf(latest, 'normal')?.value ?? 0));
  return success({
    degrees: Math.round(size),
    least: Math.max(0, Math.round(size - angle.expandedUncertainty)),
    most: Math.round(size + angle.expandedUncertainty),
    day: latest.day,
    normal: normal === 0 ? null : normal,
  });
}

const MARGIN = 46;
const GUTTER = 30;
const WIDTH = PAGE.width - 2 * MARGIN;
const COLUMN = (WIDTH - GUTTER) / 2;

const BODY: Style = { face: 'sans', size: 11.6, colour: INK.ink };
const STRONG: Style = { face: 'sansBold', size: 11.6, colour: INK.ink };
const HEADING: Style = { face: 'serifBold', size: 15, colour: INK.ink };
const WARNING: Style = { face: 'serifBold', size: 15, colour: INK.warn };
const TITLE: Style = { face: 'serifBold', size: 25, colour: INK.ink };
const UNDER: Style = { face: 'sans', size: 12, colour: INK.soft };
const SMALL: Style = { face: 'serifItalic', size: 9.4, colour: INK.soft };
const CAPTION: Style = { face: 'serif', size: 10, colour: INK.ink };
const ANGLE: Style = { face: 'sansBold', size: 13, colour: INK.ink };

/** Null, or by how much the clinic's words are too long. */
function drawSheet(
  making: Making,
  input: PatientPdfInput,
  words: PatientWords,
  bend: Bend,
): PdfFailure | null {
  const { faces } = making;
  const injury = injuryOf(input.document);
  const sheet = new Sheet(making);
  sheet.rectangle(MARGIN, MARGIN - 10, 30, 2.6, INK.accent);
  sheet.text({ text: words.title, style: TITLE }, MARGIN, MARGIN + 22);
  sheet.text({ text: whose(injury, words), style: UNDER }, MARGIN, MARGIN + 41);
  sheet.line(MARGIN, MARGIN + 52, PAGE.width - MARGIN, MARGIN + 52, INK.ink, 0.8);

  const half: Setting = { faces, width: COLUMN, styles: stylesAt(1) };
  const top = MARGIN + 68;
  const found = foundBlocks(half, injury, words, bend);
  const drawingHeight = Math.max(226, heightOf(found));
  pour(sheet, [{ x: MARGIN, blocks: found }], top, PAGE.height);
  drawBones(sheet, faces, injury, words, bend, MARGIN + COLUMN + GUTTER, top, drawingHeight);

  const middle = top + drawingHeight + 14;
  const next = listBlocks(half, words.next.heading, HEADING, words.next.lines, INK.accent);
  const boxed: Setting = { ...half, width: COLUMN - 10 };
  const warning = listBlocks(boxed, words.warning.heading, WARNING, words.warning.lines, INK.warn);
  const listsHeight = Math.max(heightOf(next), heightOf(warning));
  sheet.rectangle(MARGIN + COLUMN + GUTTER - 12, middle - 8, COLUMN + 12, listsHeight + 18, INK.warnGround);
  sheet.rectangle(MARGIN + COLUMN + GUTTER - 12, middle - 8, 2.4, listsHeight + 18, INK.warn);
  pour(
    sheet,
    [
      { x: MARGIN, blocks: next },
      { x: MARGIN + COLUMN + GUTTER, blocks: warning },
    ],
    middle,
    PAGE.height,
  );
  const footer = { text: words.foot, style: SMALL };
  sheet.text(footer, MARGIN, PAGE.height - MARGIN + 10);
  const name: Style = { ...SMALL, face: 'serifBold', colour: INK.accent };
  const wide = faces[name.face].width('Raybend', name.size);
  sheet.text({ text: 'Raybend', style: name }, PAGE.width - MARGIN - wide, PAGE.height - MARGIN + 10);
  return drawClinic(sheet, faces, input.clinicWords, words, middle + listsHeight + 26);
}

const whose = ({ hand, ray }: InjuryRecord, words: PatientWords): string =>
  [...(hand === null ? [] : [words.hand[hand]]), ...(ray === null ? [] : [words.finger[ray]])].join(', ');

function foundBlocks(
  setting: Setting,
  { ray, region }: InjuryRecord,
  { found, meaning }: PatientWords,
  { degrees: size, least, most, day, normal }: Bend,
): readonly Block[] {
  const said = (text: string, style = BODY, after = 5) => paragraph(setting, [{ text, style }], after);
  return [
    said(found.heading, HEADING, 3),
    said(`${found.bone(ray)}${region === null ? '' : ` ${found.where[region]}`}`),
    said(found.bend(size), STRONG, 3),
    said(
      [
        found.sure(least, most),
        ...(day === null ? [] : [found.film(day)]),
        ...(normal === null ? [] : [found.normal(normal)]),
      ].join(' '),
      BODY,
      12,
    ),
    said(meaning.heading, HEADING, 3),
    ...meaning.lines.map((line) => said(line)),
  ];
}

/** A heading and lines, each after a short stroke. */
function listBlocks(
  setting: Setting,
  heading: string,
  headingStyle: Style,
  lines: readonly string[],
  stroke: Style['colour'],
): readonly Block[] {
  const inset = 14;
  return [
    paragraph(setting, [{ text: heading, style: headingStyle }], 5),
    ...lines.map((text) => {
      const inner = paragraph({ ...setting, width: setting.width - inset }, [{ text, style: BODY }], 4);
      return {
        height: inner.height,
        draw: (sheet: Sheet, x: number, top: number) => {
          sheet.line(x, top + BODY.size * 0.72, x + 7, top + BODY.size * 0.72, stroke, 1.3);
          inner.draw(sheet, x + inset, top);
        },
      };
    }),
  ];
}

const PROXIMAL = INK.edge;

function drawBones(
  sheet: Sheet,
  faces: Faces,
  { region }: InjuryRecord,
  { drawing }: PatientWords,
  bend: Bend,
  left: number,
  top: number,
  height: number,
): void {
  const half: Setting = { faces, width: COLUMN / 2 - 8, styles: stylesAt(1) };
  const captions = [
    paragraph(half, [{ text: drawing.straight, style: CAPTION }]),
    paragraph(half, [{ text: drawing.bent(bend.degrees), style: CAPTION }]),
  ];
  const simple = paragraph({ ...half, width: COLUMN }, [{ text: drawing.simple, style: SMALL }]);
  const under = Math.max(...captions.map((caption) => caption.height)) + simple.height + 20;
  // The arc and the size of the angle stand above the bone.
  const length = (height - under - ANGLE.size) / 1.16;
  const base = top + height - under;
  const where = region ?? 'neck';
  const straight = drawMetacarpal(null, where, [left + 36, base], length);
  // An upper piece that leans to the right needs its room there.
  const bent = drawMetacarpal(degrees(bend.degrees), where, [left + COLUMN / 2 + 36, base], length);
  for (const { pieces, axes, arc } of [straight, bent]) {
    for (const piece of pieces) sheet.path(piece, INK.bone, INK.ink, 1.1);
    const [first, second] = axes;
    if (first !== undefined) sheet.line(...first[0], ...first[1], PROXIMAL, 0.9, [2, 2.4]);
    if (second !== undefined) sheet.line(...second[0], ...second[1], INK.accent, 1.4, [6, 3]);
    for (const [index, point] of arc.slice(1).entries()) {
      const before = arc[index];
      if (before !== undefined) sheet.line(...before, ...point, INK.ink, 0.9);
    }
  }
  const angle = `${bend.degrees}°`;
  const wide = faces[ANGLE.face].width(angle, ANGLE.size);
  sheet.text({ text: angle, style: ANGLE }, bent.labelAt[0] - wide / 2, bent.labelAt[1] - 3);
  for (const [index, caption] of captions.entries()) {
    caption.draw(sheet, left + (index * COLUMN) / 2, base + 9);
  }
  simple.draw(sheet, left, base + under - simple.height);
}

/** The clinic's own words, then lines to write on. Null, or by how much the words are too long. */
function drawClinic(
  sheet: Sheet,
  faces: Faces,
  clinicWords: string | null,
  { clinic }: PatientWords,
  top: number,
): PdfFailure | null {
  const bottom = PAGE.height - MARGIN - 14;
  const start = top + HEADING.size + 10;
  const setting: Setting = { faces, width: WIDTH, styles: stylesAt(1) };
  const own = (clinicWords?.split(/\r?\n/) ?? []).map((text) =>
    text === '' ? gap(6) : paragraph(setting, [{ text, style: BODY }], 2),
  );
  const apart = lineHeight(BODY) * 1.5;
  const roomPoints = bottom - apart - start;
  const neededPoints = heightOf(own);
  if (neededPoints > roomPoints) return { kind: 'words-too-long', neededPoints, roomPoints };
  sheet.text({ text: clinic.heading, style: HEADING }, MARGIN, top + HEADING.size);
  pour(sheet, [{ x: MARGIN, blocks: own }], start, bottom);
  for (let line = start + neededPoints + apart; line < bottom - apart; line += apart) {
    sheet.line(MARGIN, line, PAGE.width - MARGIN, line, INK.rule, 0.7);
  }
  const fields = [clinic.visit, clinic.phone];
  for (const [index, text] of fields.entries()) {
    const x = MARGIN + index * (COLUMN + GUTTER);
    const wide = faces[BODY.face].width(text, BODY.size);
    sheet.text({ text, style: { ...BODY, colour: INK.soft } }, x, bottom);
    sheet.line(x + wide + 8, bottom + 2, x + COLUMN, bottom + 2, INK.edge, 0.7);
  }
  return null;
}
