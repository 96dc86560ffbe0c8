import { createContext, useContext } from 'react';
import type { HelpId } from './page.ts';

/** Opens the definitions: at one page, or at their list with null. */
export const HelpContext = createContext<(page: HelpId | null) => void>(() => undefined);

/** The small "?" beside a line that opens its definition. */
export function HelpMark({ page, of }: { page: HelpId; of: string }) {
  const open = useContext(HelpContext);
  return (
    <button type="button" className="help-mark" aria-label={`Definition: ${of}`} onClick={() => open(page)} />
  );
}
