/** Where something is done, for whoever looks for it among the definitions. */
export interface WhereAnswer {
  readonly title: string;
  /** One or two sentences, with the labels as they stand on the page. */
  readonly text: string;
  /** Other words by which it may be looked for. */
  readonly also: string;
}

export const WHERE_ANSWERS: readonly WhereAnswer[] = [
  {
    title: 'Saving',
    text: 'All that is placed or answered is kept on this computer at once; Cases lists it. Under Record, Snapshot gives a picture, and Marks only or With films a case file to take along.',
    also: 'save, keep, store, export, backup',
  },
  {
    title: 'Undo',
    text: 'The line at the top names what would be undone; press it, or Ctrl or Cmd with Z. Everything done to a case can be undone, also after it was closed.',
    also: 'back, mistake, redo, delete, remove',
  },
  {
    title: 'DICOM',
    text: 'Open films takes DICOM files, folders of them and ZIP archives; they can be dropped or pasted too. Under Record, DICOM writes a report, a presentation or a picture.',
    also: 'open, import, disc, CD, folder, archive, file, PNG, JPEG',
  },
  {
    title: 'Children',
    text: 'Say Child under Injury, and choose a limit set for children under Against the limits. The age group is also asked under Examination.',
    also: 'child, paediatric, pediatric, age, growth plate, physis',
  },
  {
    title: 'Thumb',
    text: 'Choose the thumb on the drawn hand under Injury. The base and its joint have limit sets of their own.',
    also: 'first ray, base, joint',
  },
  {
    title: 'Cast, splint, reduction',
    text: 'Course shows film by film whether a reading has changed; say there which film was taken after reduction. Its milestones tell when a splint or wires usually come off.',
    also: 'plaster, follow-up, healing, wires, over time, weeks',
  },
  {
    title: 'Printing',
    text: 'Under Record, Record and Patient sheet make pages to print or to save as PDF; Note and Tables give text and numbers.',
    also: 'print, paper, report, letter, patient, leaflet, copy',
  },
  {
    title: 'Teaching',
    text: 'Classroom has lessons, exercises with the truth afterwards, invented films, a demonstration for the projector, and studies of agreement.',
    also: 'teach, trainee, exercise, practise, demo, lecture',
  },
];
