import type { HelpPage } from './page.ts';
import { BHANDARI, LAMRASKI, SLETTEN } from './sources.ts';

/** What each reading is. */
export const READING_PAGES: readonly HelpPage[] = [
  {
    id: 'angulation',
    doc: 'angulation',
    kind: 'reading',
    title: 'Angulation, measured',
    also: 'bend, tilt, apex dorsal, apex volar, degrees',
    about:
      'The angle between the proximal and the distal axis on this film, named by its view. From the side it is apex dorsal where the distal fragment tilts towards the palm; in a PA view it is the coronal angle, apex radial or apex ulnar. The sign needs the dorsal (or radial) side to be tapped once.',
    formula:
      'The turn from the direction of the proximal axis to that of the distal one, both run from the wrist towards the knuckle.',
    reliability: {
      text: 'Canal axes on a true lateral: ICC 0.53 to 0.81. Measured obliques read higher than the truth, by up to 35° in cadavers.',
      source: `${SLETTEN}; ${LAMRASKI}`,
    },
    leavesOut: 'Turning of the hand out of the view; an oblique reading is flagged and never converted.',
  },
  {
    id: 'deformity',
    doc: 'deformity',
    kind: 'reading',
    title: 'Normal and deformity',
    also: 'other side, normal angle, take off',
    about:
      'A whole metacarpal is bent already. The deformity is the measured angle less this normal: the same angle on the other hand where it was measured, else a published normal for these axes with its spread, else zero, and the line says which.',
    formula: 'Measured less normal; the two uncertainties are added as squares.',
    reliability: {
      text: 'Normal of whole bones: capital axis ring 14°, small 12°; dorsal cortex 10 to 13° with an SD of about 5° between people, which alone makes ± 10°.',
      source: `Rivlin et al., Hand 2015;10:756–761; ${BHANDARI}`,
    },
    leavesOut: 'Two sound hands differ, and a published normal comes from other people, measured by others.',
  },
  {
    id: 'bend-place',
    doc: 'bend-place',
    kind: 'reading',
    title: 'Place of the bend',
    about:
      'Where the lines of the two axes cross, from the base along the bone, as a share of its length: it needs the axes and the length of the bone. A bend far from the break belongs in part to the bone itself, which is bent near its middle when it is sound.',
    formula: 'Distance of the crossing from the base along the bone, over the length of the bone.',
    reliability: {
      text: 'Sound bones between lines along the dorsal cortex: index 53.5 (SD 12.5), middle 52.1 (17.8), ring 48.3 (11.5), small 50.3 (12.4) %.',
      source: `${BHANDARI}, table 2`,
    },
    leavesOut:
      'An offset of the fragments moves the crossing; below 7.5 times its own uncertainty an angle gives no place.',
  },
  {
    id: 'length',
    doc: 'length',
    kind: 'reading',
    title: 'Length of the bone',
    about:
      'The straight distance from the middle of the base to the farthest point of the head, on a PA film. Without a scale there are no millimetres, and distances are shown as a share of this length.',
    formula: 'Distance on the film, divided by how much larger than life the film shows the bone.',
    reliability: {
      text: 'Mean lengths from joint to joint: 46.2, 68.1, 64.6, 58.0, 53.7 mm, thumb to small.',
      source: 'Buryanov and Kotiuk, Int J Morphol 2010;28:755–758',
    },
    leavesOut: 'A bone tilted out of the film looks shorter: by 1.5 % at 10°, by 6 % at 20°.',
  },
  {
    id: 'shortening',
    doc: 'shortening',
    kind: 'reading',
    title: 'Shortening',
    about:
      'How much shorter the bone is than it was. There are four ways and they do not agree, so the way is part of the reading: the length of the other hand; the ratio to a whole neighbour; the distance below the line through two other heads; the overlap of two tips that lay together.',
    formula:
      'Length (or distance below the head line) as it was, less as it is; or how far the tips reach past one another along the bone.',
    reliability: {
      text: 'Head line through middle and ring: ICC 0.81 to 0.96. Lengths differ between two sound hands; ratios within a hand did not.',
      source: `${SLETTEN}; Foley et al., SAGE Open Med 2021;9`,
    },
    leavesOut: 'Two sound hands differ, and a tilted bone is shorter on the film without having lost length.',
  },
  {
    id: 'translation',
    doc: 'translation',
    kind: 'reading',
    title: 'Translation',
    also: 'shift, displacement, offset',
    about:
      'How far the distal fragment stands aside of the proximal one at the fracture, across the proximal axis, in millimetres and as a share of the width of the shaft.',
    formula: 'Distance of the distal axis from the proximal one at the level of the fracture.',
    reliability: { text: 'None found for metacarpals.', source: 'no publication found' },
    leavesOut: 'An offset along the line of sight is not seen in this view.',
  },
  {
    id: 'joint-surface',
    doc: 'joint-surface',
    kind: 'reading',
    title: 'Joint step and gap',
    also: 'step-off, gap, intra-articular',
    about:
      'The edges of a broken joint surface: how far apart they stand across the surface (step) and along it (gap). The surface is a line on the larger fragment close to the break.',
    formula: 'The distance from edge to edge, square to the surface for the step and along it for the gap.',
    reliability: {
      text: 'None found for metacarpals. Two clicks at 0.5 mm each do not tell a step of 1 mm from none.',
      source: 'by calculation',
    },
    leavesOut: 'The curve of the surface; a step seen in one view may be hidden in another.',
  },
  {
    id: 'spatial-angle',
    doc: 'spatial-angle',
    kind: 'reading',
    title: 'Angle in space',
    about:
      'The angle between the fragments in space and the plane it lies in, from the signed angles on two films of one day between which the hand was turned by a stated amount: a quarter turn from PA to lateral, and what you state for an oblique.',
    formula:
      'At a quarter turn the squared tangents of the two angles add up to the squared tangent of the angle in space.',
    reliability: {
      text: 'Worked example in print: 19° and 14°, drawn 24°, exactly 23.03°. Below 30° between the views it is refused.',
      source: 'PMC4799231, figure 5',
    },
    leavesOut:
      'It takes the proximal fragment to lie flat to the film in both views, which nobody has measured.',
  },
  {
    id: 'fist-photograph',
    doc: 'fist-photograph',
    kind: 'reading',
    title: 'Rotation, and a photograph of the fist',
    also: 'scissoring, malrotation, overlap, twist, nails',
    about:
      'Rotation cannot be read off a radiograph. On a photograph of the half-closed fist two points along the nail of the finger and two along that of a reference finger give its direction, which is compared with the other hand; and the overlap is given as a share of the neighbouring nail. Both support the look at the hand, settle nothing, and are never compared with a limit.',
    formula:
      'Direction of the nail against a reference finger here, less the same on the mirrored other hand; covered width of the neighbouring nail over its whole width.',
    reliability: {
      text: 'Nine people in ten overlap somewhat, none by more than half a nail; 73 % unequally on the two hands. Small finger: 25 (SD 20) %, side difference 16 (SD 13) %.',
      source:
        'Variation in digital rotation and alignment in normal subjects (240 fingers); Lahey et al., Orthopedics 2011;34(7)',
    },
    leavesOut: 'How far the fist is closed, which matters most.',
  },
];
