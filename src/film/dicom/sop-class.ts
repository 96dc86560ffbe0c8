/**
 * What to do with the SOP class of a file: `open` radiographs; open others that can hold one, with a note;
 * refuse what shows no projection of the body, whose pixels would be measured as if it did.
 */
export interface SopClass {
  readonly uid: string;
  readonly name: string;
  readonly open: 'yes' | 'with-a-note' | 'no';
}

const STORAGE = '1.2.840.10008.5.1.4.1.1';

/** PS3.4 table B.5-1; names shortened. */
const SOP_CLASSES: readonly (readonly [tail: string, name: string, open: SopClass['open']])[] = [
  ['.1', 'computed radiograph', 'yes'],
  ['.1.1', 'digital radiograph', 'yes'],
  ['.1.1.1', 'digital radiograph for processing', 'yes'],
  ['.1.2', 'mammogram', 'with-a-note'],
  ['.1.2.1', 'mammogram for processing', 'with-a-note'],
  ['.1.3', 'intra-oral radiograph', 'with-a-note'],
  ['.1.3.1', 'intra-oral radiograph for processing', 'with-a-note'],
  ['.7', 'secondary capture', 'yes'],
  ['.7.1', 'single-bit secondary capture', 'yes'],
  ['.7.2', 'grey secondary capture', 'yes'],
  ['.7.3', 'grey secondary capture of more than 8 bits', 'yes'],
  ['.7.4', 'colour secondary capture', 'yes'],
  ['.12.1', 'angiographic radiograph', 'yes'],
  ['.12.1.1', 'enhanced angiographic radiograph', 'yes'],
  ['.12.2', 'fluoroscopic radiograph', 'yes'],
  ['.12.2.1', 'enhanced fluoroscopic radiograph', 'yes'],
  ['.2', 'CT slice', 'no'],
  ['.2.1', 'enhanced CT study', 'no'],
  ['.4', 'MR slice', 'no'],
  ['.4.1', 'enhanced MR study', 'no'],
  ['.13.1.1', 'three-dimensional X-ray study', 'no'],
  ['.13.1.3', 'tomosynthesis study', 'no'],
  ['.3.1', 'ultrasound series', 'no'],
  ['.6.1', 'ultrasound picture', 'no'],
  ['.20', 'nuclear medicine picture', 'no'],
  ['.128', 'PET slice', 'no'],
  ['.481.1', 'radiotherapy image', 'no'],
  ['.481.2', 'radiotherapy dose', 'no'],
  ['.481.3', 'radiotherapy structure set', 'no'],
  ['.66.4', 'segmentation', 'no'],
  ['.77.1.1', 'endoscopic picture', 'no'],
  ['.77.1.4', 'photograph', 'no'],
  ['.77.1.6', 'whole slide microscopy picture', 'no'],
  ['.11.1', 'presentation state', 'no'],
  ['.88.11', 'structured report', 'no'],
  ['.88.22', 'structured report', 'no'],
  ['.88.33', 'structured report', 'no'],
  ['.88.34', 'structured report', 'no'],
  ['.88.59', 'key object selection', 'no'],
  ['.88.67', 'radiation dose report', 'no'],
  ['.104.1', 'encapsulated PDF document', 'no'],
  ['.9.1.1', 'electrocardiogram', 'no'],
];

const MEDIA_STORAGE_DIRECTORY = '1.2.840.10008.1.3.10';

/** The class of a UID; null when it is not one of those named here. */
export function sopClass(uid: string): SopClass | null {
  if (uid === MEDIA_STORAGE_DIRECTORY) return { uid, name: 'list of a disc (DICOMDIR)', open: 'no' };
  const known = SOP_CLASSES.find(([tail]) => uid === STORAGE + tail);
  return known === undefined ? null : { uid, name: known[1], open: known[2] };
}
