/* Small changes to sentences that are put together. */

export const withStop = (sentence: string): string => (/[.!?]$/.test(sentence) ? sentence : `${sentence}.`);

export const lowerFirst = (text: string): string => `${text.charAt(0).toLowerCase()}${text.slice(1)}`;

export const upperFirst = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

/** Thin spaces become plain ones: many a reader has no glyph for them, and some take their bytes for controls. */
export const withPlainSpaces = (text: string): string => text.replaceAll('\u2009', ' ');
