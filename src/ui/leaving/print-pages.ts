/** A whole sheet of paper for each page, whose margins are its own. */
const WHOLE_SHEETS = '@page { size: A4; margin: 0 }';

/** Prints the pages that are shown; whatever else is printed later keeps the margins of the browser. */
export function printPages(): void {
  const rules = new CSSStyleSheet();
  rules.replaceSync(WHOLE_SHEETS);
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, rules];
  window.addEventListener(
    'afterprint',
    () => {
      document.adoptedStyleSheets = document.adoptedStyleSheets.filter((one) => one !== rules);
    },
    { once: true },
  );
  window.print();
}
