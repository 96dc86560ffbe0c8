import { injuryOf } from '../../case/fixed-records.ts';
import { success } from '../../geometry/result.ts';
import type { PdfFile } from '../../record/pdf/page.ts';
import { patientPdf } from '../../record/pdf/patient-pdf.ts';
import { recordPdf } from '../../record/pdf/record-pdf.ts';
import { recordErrorSentence } from '../../record/record-error.ts';
import type { LeavingChoice } from '../../ui/leaving/leaving.ts';
import { currentAssessment } from '../assessment.ts';
import type { Shell } from '../shell.ts';
import { type Made, refused } from './made.ts';
import { PageView } from './PageView.tsx';
import { pageFonts } from './page-fonts.ts';

/** The printed record. @param picture - One film or two with their marks as PNG, and their numbers in the case. */
export async function recordOf(
  { store, now }: Shell,
  { withName, withDay }: LeavingChoice,
  picture: { readonly png: Uint8Array; readonly filmNumbers: readonly number[] } | null,
): Promise<Made<PdfFile>> {
  const faces = await pageFonts();
  if (!faces.ok) return faces;
  const state = store.getState();
  const { document } = state.caseState;
  const { label } = injuryOf(document);
  const made = await recordPdf({
    document,
    assessment: currentAssessment(state),
    faces: faces.value,
    picture,
    label: withName && label !== '' ? label : null,
    writtenOn: withDay
      ? new Intl.DateTimeFormat('en-GB', { dateStyle: 'long' }).format(new Date(now()))
      : null,
    softwareVersion: __RAYBEND_VERSION__,
  });
  return made.ok
    ? success(made.value)
    : refused(
        `${recordErrorSentence(made.error, 'The record')} The snapshot, the note and the tables can leave now.`,
      );
}

export async function patientSheetOf(
  { store }: Shell,
  { language, clinicWords }: LeavingChoice,
): Promise<Made<PdfFile>> {
  const faces = await pageFonts();
  if (!faces.ok) return faces;
  const state = store.getState();
  const made = await patientPdf({
    document: state.caseState.document,
    assessment: currentAssessment(state),
    faces: faces.value,
    language,
    clinicWords: clinicWords.trim() === '' ? null : clinicWords.trim(),
  });
  return made.ok ? success(made.value) : refused(recordErrorSentence(made.error, 'The patient sheet'));
}

/** The pages for the screen. */
export const pageViews = ({ pages }: PdfFile, picture: string | null) =>
  pages.map((drawing, index) => {
    const name = `Page ${index + 1}`;
    return <PageView key={name} drawing={drawing} name={name} picture={picture} />;
  });
