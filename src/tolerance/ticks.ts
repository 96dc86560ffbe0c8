import type { Ray, Region } from './anatomy.ts';
import type { Band, LimitQuantity } from './limit-set.ts';

/** One published number, drawn as a tick (or a short bar) on the limit ruler beside the chosen set's band. */
export interface LimitTick extends Band {
  readonly id: string;
  /** What the source says of this number, to be read after it: "20°: …". */
  readonly meaning: string;
  readonly citation: string;
}

const at = (id: string, lo: number, hi: number, meaning: string, citation: string): LimitTick => ({
  id,
  lo,
  hi,
  meaning,
  citation,
});

const ULTRASOUND = 'Ultrasound study of the small finger metacarpal neck, PMID 21161877';
const FOLLOW_UP = 'Namik Kemal Med J 2023;11(2):139-144 (63 patients)';

/**
 * Single limits published for the neck of the small finger metacarpal, apex dorsal, in degrees, from the
 * strictest up. They are no set: each speaks for its own text, and they span a range in which no number is
 * settled. One study (Porter, Arch Emerg Med 1988;5:212-215) found no relation of angle and function, and
 * has no tick.
 */
const SMALL_FINGER_NECK_TICKS: readonly LimitTick[] = [
  at(
    'osteotomy-series',
    15,
    15,
    'reduced above this on any finger, and fixed if unstable',
    'French series of 14 metacarpal osteotomies, core.ac.uk work 33832839',
  ),
  at(
    'healing-after-reduction',
    17,
    17,
    'after reduction: above this the fracture tended to heal beyond 30°',
    FOLLOW_UP,
  ),
  at(
    'wheeless-neck',
    20,
    20,
    'accepted up to this',
    'Wheeless, Textbook of Orthopaedics, Metacarpal neck fractures',
  ),
  at('lowest-published', 30, 30, 'lowest published upper limit for normal function', ULTRASOUND),
  at(
    'family-medicine-critique',
    35,
    40,
    'pinned by surgery from here',
    "American Board of Family Medicine critique 2017, quoted at timeofcare.com, Boxer's fracture",
  ),
  at(
    'emergency-atlas',
    40,
    40,
    'accepted up to this',
    "The Atlas of Emergency Medicine, 5th edition, 2021, Boxer's fracture",
  ),
  at(
    'healing-initial',
    44,
    44,
    'at first film: above this the fracture tended to heal beyond 30°',
    FOLLOW_UP,
  ),
  at(
    'teaching-case',
    45,
    45,
    'accepted up to this',
    'Northwestern University, orthopaedic teaching case 26, hand',
  ),
  at(
    'outcome-study',
    45,
    45,
    'true angle from two views: above this, left unreduced, did worse',
    'J Bone Joint Surg Br, supplement III, 85-B, abstract 0850209c (42 patients)',
  ),
  at(
    'manual-caption',
    45,
    45,
    'no reduction below this',
    'MSD Manual, picture caption on the metacarpal neck fracture',
  ),
  at(
    'emergency-note',
    50,
    50,
    'accepted up to this',
    'Corwell B, University of Maryland emergency medicine teaching note, 26 March 2016',
  ),
  at(
    'textbook-chapter',
    50,
    60,
    'accepted up to this',
    'Book chapter, doi 10.1007/978-3-319-78387-1_47, Springer, summary box; WikEM, Non-thumb metacarpal fracture (head)',
  ),
  at(
    'soft-wrap-trial',
    70,
    70,
    'without rotation: a soft wrap did no worse than reduction and a cast',
    'van Aaken et al., Arch Orthop Trauma Surg 2016;136:135-142 (randomised, 68 patients)',
  ),
  at('highest-published', 70, 70, 'highest angle published with normal function', ULTRASOUND),
];

/** The ticks for a ruler; there are none but for the neck of the small finger. */
export function ticksFor(ray: Ray, region: Region, quantity: LimitQuantity): readonly LimitTick[] {
  return ray === 'small' && region === 'neck' && quantity === 'apex-dorsal' ? SMALL_FINGER_NECK_TICKS : [];
}
