/** What happens on a plate that is only looked at: nothing. */
export const IGNORED = {
  onPreview: () => undefined,
  onCommit: () => undefined,
  onPlacingPoint: () => undefined,
  onHold: () => undefined,
  onView: () => undefined,
  onFocus: () => undefined,
  onAnnounce: () => undefined,
};
