/** Why a page is not made. */
export type PdfFailure =
  /** Characters that none of the faces has; each once. */
  | { readonly kind: 'missing-glyph'; readonly characters: readonly string[] }
  | { readonly kind: 'font-unreadable'; readonly detail: string }
  | { readonly kind: 'picture-unreadable'; readonly detail: string }
  /** The clinic's own words need more room than the sheet has. */
  | { readonly kind: 'words-too-long'; readonly neededPoints: number; readonly roomPoints: number }
  /** The sheet for the patient draws the measured angle, and there is none. */
  | { readonly kind: 'no-angle' }
  /** Several films in one view have an angle, and these, by their names in sentences, lack a day: which is the latest? */
  | { readonly kind: 'undated-films'; readonly films: readonly string[] };
