const DAY_MS = 86_400_000;
const DATE = new Intl.DateTimeFormat(undefined, { day: 'numeric', month: 'short', timeZone: 'UTC' });

/** The calendar day that many days after the injury, `14 Mar`; null where the user gave no date of the injury. */
export function dateOf(day: number, injuryDate: string | null): string | null {
  if (injuryDate === null) return null;
  const start = Date.parse(`${injuryDate}T00:00:00Z`);
  return Number.isNaN(start) ? null : DATE.format(start + day * DAY_MS);
}

/** `day 12` or `day 12, 14 Mar`. */
export function dayWords(day: number, injuryDate: string | null): string {
  const date = dateOf(day, injuryDate);
  return date === null ? `day ${day}` : `day ${day}, ${date}`;
}
