import type { Ray, Region } from '../../tolerance/anatomy.ts';

/** Languages that the sheet for the patient is written in. */
export const PATIENT_LANGUAGES = ['en', 'de'] as const;
export type PatientLanguage = (typeof PATIENT_LANGUAGES)[number];

/**
 * Everything the sheet for the patient says, for a reader of about twelve: short sentences, everyday words. What
 * happens next and the warning signs are common practice, no source; the clinic writes its own beside them.
 */
export interface PatientWords {
  /** RFC 5646. */
  readonly tag: string;
  readonly title: string;
  readonly hand: Readonly<Record<'left' | 'right', string>>;
  readonly finger: Readonly<Record<Ray, string>>;
  readonly found: {
    readonly heading: string;
    /** Which bone; null where the finger is not said. */
    readonly bone: (ray: Ray | null) => string;
    readonly where: Readonly<Record<Region, string>>;
    readonly bend: (degrees: number) => string;
    readonly sure: (least: number, most: number) => string;
    /** Of which day after the injury that is: it may not be as it is now. */
    readonly film: (day: number) => string;
    /** Only where a normal that is not zero was taken off. */
    readonly normal: (degrees: number) => string;
  };
  readonly drawing: {
    readonly straight: string;
    readonly bent: (degrees: number) => string;
    readonly simple: string;
  };
  readonly meaning: { readonly heading: string; readonly lines: readonly string[] };
  readonly next: { readonly heading: string; readonly lines: readonly string[] };
  readonly warning: { readonly heading: string; readonly lines: readonly string[] };
  readonly clinic: { readonly heading: string; readonly visit: string; readonly phone: string };
  readonly foot: string;
}

const en: PatientWords = {
  tag: 'en-GB',
  title: 'Your broken hand bone',
  hand: { left: 'Left hand', right: 'Right hand' },
  finger: {
    thumb: 'thumb',
    index: 'index finger',
    middle: 'middle finger',
    ring: 'ring finger',
    small: 'little finger',
  },
  found: {
    heading: 'What we found',
    bone: (ray) =>
      ray === null
        ? 'A long bone in your hand is broken.'
        : `A bone in your hand is broken. It is the long bone that leads to your ${en.finger[ray]}.`,
    where: {
      head: 'The break is in the end of the bone, at the knuckle.',
      neck: 'The break is just below the knuckle.',
      shaft: 'The break is in the middle of the bone.',
      base: 'The break is at the end of the bone, near the wrist.',
    },
    bend: (degrees) => `The bone is bent by about ${degrees} degrees.`,
    sure: (least, most) =>
      `It may be between ${least} and ${most} degrees. A line on an X-ray is never exact.`,
    film: (day) =>
      day === 0
        ? 'This was on the day you got hurt.'
        : `This was ${day === 1 ? 'one day' : `${day} days`} after you got hurt.`,
    normal: (degrees) => `A healthy bone here is bent a bit too, by about ${degrees} degrees.`,
  },
  drawing: {
    straight: 'A straight bone',
    bent: (degrees) => `A bone bent by ${degrees} degrees`,
    simple: 'The drawings are simple. Your own bone looks a little different.',
  },
  meaning: {
    heading: 'What it means',
    lines: [
      'The bend is only one part of the story.',
      'Your doctor also checks how your fingers line up when you make a fist. An X-ray cannot show that.',
      'You and your doctor decide together what to do.',
    ],
  },
  next: {
    heading: 'What may happen next',
    lines: [
      'You may get a splint, a cast, or tape that holds two fingers together.',
      'You may need a new X-ray, to see that the bone stays in place.',
      'Keep your hand up high for the first days. It helps with the swelling.',
      'Take off your rings.',
      'Ask which fingers you may move, and how much.',
    ],
  },
  warning: {
    heading: 'Get help at once if',
    lines: [
      'your fingers turn white or blue, or feel cold',
      'your fingers feel numb or tingle',
      'the pain gets worse and worse, or it hurts a lot to stretch your fingers',
      'the hand gets tight and hard',
      'you have a wound near the knuckle, or it gets red, hot or wet',
      'you get a fever',
      'a finger crosses over the next one when you make a fist',
      'the splint or cast feels too tight',
    ],
  },
  clinic: { heading: 'From your clinic', visit: 'Next visit', phone: 'Phone' },
  foot: 'This sheet helps you to learn and to ask questions. It does not take the place of your doctor.',
};

const de: PatientWords = {
  tag: 'de-DE',
  title: 'Ihr gebrochener Knochen in der Hand',
  hand: { left: 'Linke Hand', right: 'Rechte Hand' },
  finger: {
    thumb: 'Daumen',
    index: 'Zeigefinger',
    middle: 'Mittelfinger',
    ring: 'Ringfinger',
    small: 'kleiner Finger',
  },
  found: {
    heading: 'Was wir gefunden haben',
    bone: (ray) =>
      ray === null
        ? 'Ein langer Knochen in Ihrer Hand ist gebrochen.'
        : `Ein Knochen in Ihrer Hand ist gebrochen. Es ist der lange Knochen, der ${TO_FINGER[ray]} führt.`,
    where: {
      head: 'Der Bruch ist am Ende des Knochens, am Fingerknöchel.',
      neck: 'Der Bruch ist gleich unter dem Fingerknöchel.',
      shaft: 'Der Bruch ist in der Mitte des Knochens.',
      base: 'Der Bruch ist am Ende des Knochens, nah am Handgelenk.',
    },
    bend: (degrees) => `Der Knochen ist um etwa ${degrees} Grad geknickt.`,
    sure: (least, most) =>
      `Es können auch ${least} bis ${most} Grad sein. Eine Linie auf einem Bild ist nie ganz genau.`,
    film: (day) =>
      day === 0
        ? 'So war es am Tag des Unfalls.'
        : `So war es ${day === 1 ? 'einen Tag' : `${day} Tage`} nach dem Unfall.`,
    normal: (degrees) => `Auch ein gesunder Knochen ist hier etwas krumm, um etwa ${degrees} Grad.`,
  },
  drawing: {
    straight: 'Ein gerader Knochen',
    bent: (degrees) => `Ein Knochen mit einem Knick von ${degrees} Grad`,
    simple: 'Die Bilder sind einfach. Ihr Knochen sieht etwas anders aus.',
  },
  meaning: {
    heading: 'Was das heißt',
    lines: [
      'Der Knick ist nur ein Teil davon.',
      'Man prüft auch, wie Ihre Finger stehen, wenn Sie eine Faust machen. Das zeigt kein Bild.',
      'Was zu tun ist, legen Sie mit Ihrem Arzt oder Ihrer Ärztin fest.',
    ],
  },
  next: {
    heading: 'Was nun kommen kann',
    lines: [
      'Vielleicht bekommen Sie eine Schiene, einen Gips oder ein Band um zwei Finger.',
      'Vielleicht braucht es ein neues Bild. Es zeigt, ob der Knochen gut steht.',
      'Halten Sie die Hand die ersten Tage hoch. Dann schwillt sie weniger an.',
      'Nehmen Sie Ihre Ringe ab.',
      'Fragen Sie, welche Finger Sie wie viel bewegen dürfen.',
    ],
  },
  warning: {
    heading: 'Holen Sie sofort Hilfe, wenn',
    lines: [
      'Ihre Finger weiß oder blau werden oder kalt sind',
      'Ihre Finger taub sind oder kribbeln',
      'es immer mehr weh tut, oder sehr weh tut, die Finger zu strecken',
      'die Hand prall und hart wird',
      'am Fingerknöchel eine Wunde ist, oder sie rot, heiß oder nass wird',
      'Sie Fieber bekommen',
      'ein Finger über dem nächsten liegt, wenn Sie eine Faust machen',
      'Schiene oder Gips zu eng sind',
    ],
  },
  clinic: { heading: 'Von Ihrer Klinik', visit: 'Nächster Termin', phone: 'Telefon' },
  foot: 'Dieses Blatt hilft Ihnen, Fragen zu stellen. Es ersetzt keine Ärztin und keinen Arzt.',
};

const TO_FINGER: Readonly<Record<Ray, string>> = {
  thumb: 'zum Daumen',
  index: 'zum Zeigefinger',
  middle: 'zum Mittelfinger',
  ring: 'zum Ringfinger',
  small: 'zum kleinen Finger',
};

export const PATIENT_WORDS: Readonly<Record<PatientLanguage, PatientWords>> = { en, de };
