import { type ReactNode, useId, useLayoutEffect, useRef } from 'react';

interface SheetProps {
  readonly title: string;
  /** Escape, or the button that closes the sheet. */
  readonly onClose: () => void;
  readonly children: ReactNode;
  /** What is done with the sheet: its buttons, in sight whatever is scrolled. */
  readonly foot: ReactNode;
  readonly wide?: boolean;
}

/** A page laid over the app. The browser keeps the focus in it and gives it back afterwards. */
export function Sheet({ title, onClose, children, foot, wide }: SheetProps) {
  const dialog = useRef<HTMLDialogElement>(null);
  const titleId = useId();
  // Closed while it is still part of the page: only then does the browser give the focus back.
  useLayoutEffect(() => {
    const shown = dialog.current;
    shown?.showModal();
    return () => shown?.close();
  }, []);
  return (
    <dialog
      ref={dialog}
      className="sheet"
      data-wide={wide || undefined}
      aria-labelledby={titleId}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
      // Keys typed here are the sheet's own: Escape must not also end what goes on behind it.
      onKeyDown={(event) => event.stopPropagation()}
    >
      <h2 id={titleId} className="sheet__title">
        {title}
      </h2>
      <div className="sheet__body">{children}</div>
      <div className="sheet__foot">{foot}</div>
    </dialog>
  );
}
