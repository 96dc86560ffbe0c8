import type { Room } from './room.ts';
export function AgreementPage(_: { readonly room: Room }) {
  return null;
}
