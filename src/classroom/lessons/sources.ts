/** Works that lessons rest on, as they are cited under a lesson. docs/REFERENCES.md says how each was seen. */
export const SOURCES = {
  sletten:
    'Sletten et al., Journal of Hand Surgery (European), doi 10.1177/1753193412461582: canal axes on a true lateral, ICC 0.53–0.81; shortening below the line of the middle and ring heads, ICC 0.81–0.96.',
  lamraski:
    'Lamraski et al., Journal of Orthopaedic Research 2006;24:37–45: thirty cadaver fractures; oblique views read higher than laterals, by up to 35°.',
  bhandari:
    'Bhandari et al., Plastic and Aesthetic Research 2017;4:174–177: normal angle along the dorsal cortex 13, 10, 11 and 12° (index to small finger), SD about 5°.',
  rivlin:
    'Rivlin, Kim, Lutsky, Beredjiklian. Hand 2015;10:756–761: normal bend of shaft and head in CT, ring 14°, small finger 12°; much of it lies in the shaft.',
  tosti:
    'Tosti et al., Journal of Hand Surgery (American) 2014;39:1722–1727: surgeons who were shown the measured angle chose surgery more often.',
  foley:
    'Foley et al., SAGE Open Medicine 2021;9: the two hands of one person differ in length; ratios within a hand differ less.',
  strauch:
    'Strauch, Rosenwasser, Lunt. Journal of Hand Surgery (American) 1998;23A:519–523: about 7° of extensor lag for each 2 mm of shortening, in cadaver hands.',
  obliquePlane:
    'PMC4799231, figure 5: a deformity of 19° in one view and 14° in the other is 24° in space as drawn; the tangent rule gives 23°.',
  rotationNormal:
    '“Variation in digital rotation and alignment in normal subjects” (240 fingers of 30 people): nine people in ten have some overlap of the fingers, unequal on the two hands in 73 %.',
  gross:
    'Gross, Gelberman. Journal of Hand Surgery 1985;10:105–108: about 70 % of a metacarpal’s rotation reaches the finger.',
  biteShewring:
    'sinaiem.org, “Fight bite”: of 147 explored wounds over a knuckle the joint was entered in 96 %.',
  rch: 'Royal Children’s Hospital Melbourne, guideline on metacarpal fractures: rotation is found by examining; a bite wound is dangerous whatever the film shows.',
  blandAltman:
    'Bland, Altman. BMJ 1996;313:744: two readings of the same thing differ by less than 2.77 within-subject SDs, 19 times in 20.',
  limits:
    'The limit sets of this tool, each with its own source, on the page “Limits”. Sources disagree, and seldom say which lines and which view they mean.',
  wheelessViews:
    'Wheeless, metacarpal base page: a lateral pronated by 30° shows the index and middle finger, one supinated by 30° the ring and small finger.',
  wheelessNeck:
    'Wheeless, metacarpal neck page: the joint at the base of the small finger moves by 20–30°, that of the ring finger by 10–15°.',
  projection:
    'Plain geometry of projection; no source needed: tan(shown) = tan(bend) · cos(turn) for a bend in one plane.',
  magnification:
    'Radiography teaching: magnification = distance tube to detector ÷ distance tube to object, e.g. 42 ÷ 32 = 1.31.',
  practice: 'Common practice, no source.',
} as const;
