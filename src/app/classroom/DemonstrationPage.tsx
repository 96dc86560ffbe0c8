import type { Room } from './room.ts';
export function DemonstrationPage(_: { readonly room: Room }) {
  return null;
}
