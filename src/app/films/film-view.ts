import type { FilmFacts } from '../../film/film.ts';
import type { View } from '../../tolerance/anatomy.ts';

/** (0018,5101) View Position values that say which of the three views this is; others are left to the user. */
const VIEW_OF_POSITION = new Map<string, View>(
  Object.entries({
    PA: 'pa',
    AP: 'pa',
    LL: 'lateral',
    RL: 'lateral',
    LLO: 'oblique',
    RLO: 'oblique',
  }),
);

/**
 * Code values of PS3.16 CID 4010 that say which of the three views this is, as SNOMED CT has them and as older
 * files write them.
 */
const VIEW_OF_CODE = new Map<string, View>(
  Object.entries({
    '272479007': 'pa', // postero-anterior
    'R-40888': 'pa',
    '399348003': 'pa', // antero-posterior
    'R-10206': 'pa',
    '399033003': 'pa', // frontal
    'R-10202': 'pa',
    '399067008': 'lateral', // lateral
    'R-102CD': 'lateral',
    '399173006': 'lateral', // left lateral
    'R-10236': 'lateral',
    '399198007': 'lateral', // right lateral
    'R-10232': 'lateral',
    '399352003': 'lateral', // lateral-medial
    'R-10228': 'lateral',
    '399260004': 'lateral', // medial-lateral
    'R-10224': 'lateral',
    '399182000': 'oblique', // oblique
    'R-102C1': 'oblique',
    '399059000': 'oblique', // postero-anterior oblique
    'R-10216': 'oblique',
    '399312000': 'oblique', // antero-posterior oblique
    'R-10208': 'oblique',
    '260427002': 'oblique', // lateral oblique
    'R-40783': 'oblique',
    '260426006': 'oblique', // medial oblique
    'R-40782': 'oblique',
    '399184004': 'oblique', // left oblique
    'R-10238': 'oblique',
    '399236003': 'oblique', // right oblique
    'R-10234': 'oblique',
  }),
);

/** The view a film's file states, by its code before its older text; null when it states none of the three. */
export const statedView = (facts: Pick<FilmFacts, 'viewPosition' | 'viewCode'>): View | null =>
  VIEW_OF_CODE.get(facts.viewCode ?? '') ?? VIEW_OF_POSITION.get(facts.viewPosition ?? '') ?? null;
