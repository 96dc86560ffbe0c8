import { useEffect, useId, useRef, useState } from 'react';
import { PushButton } from '../controls/controls.tsx';
import { HelpDrawing } from './HelpDrawing.tsx';
import type { HelpId, HelpPage } from './page.ts';
import { helpPage } from './pages.ts';
import { searchAnswers, searchPages } from './search-pages.ts';

interface HelpPanelProps {
  /** Null: the list of all of them. */
  readonly page: HelpId | null;
  readonly onPage: (page: HelpId | null) => void;
  readonly onClose: () => void;
}

const KINDS = [
  { kind: 'axis', title: 'How an axis is drawn' },
  { kind: 'reading', title: 'Readings' },
  { kind: 'beside', title: 'Beside them' },
] as const;

/** Definitions beside the work: it covers part of the film and stops nothing. */
export default function HelpPanel({ page, onPage, onClose }: HelpPanelProps) {
  const [query, setQuery] = useState('');
  const heading = useRef<HTMLHeadingElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the heading is another one with each page
  useEffect(() => heading.current?.focus(), [page]);
  const searchId = useId();
  const found = searchPages(query);
  const answers = searchAnswers(query);
  return (
    <aside
      className="help"
      aria-label="Definitions"
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.preventDefault();
        onClose();
      }}
    >
      <div className="help__head">
        {page === null ? (
          <h2 ref={heading} tabIndex={-1} className="section__title">
            Definitions
          </h2>
        ) : (
          <PushButton quiet onPress={() => onPage(null)}>
            All definitions
          </PushButton>
        )}
        <PushButton quiet onPress={onClose} label="Close the definitions">
          Close
        </PushButton>
      </div>
      {page === null ? (
        <>
          <label className="help__search" htmlFor={searchId}>
            Search
            <input
              id={searchId}
              type="search"
              value={query}
              onChange={(event) => setQuery(event.currentTarget.value)}
            />
          </label>
          <p className="visually-hidden" role="status">
            {found.length + answers.length} found
          </p>
          {found.length + answers.length === 0 && (
            <p className="aside-note">Nothing here holds these words. Try one of them alone.</p>
          )}
          {KINDS.map(({ kind, title }) => {
            const pages = found.filter((one) => one.kind === kind);
            return (
              pages.length > 0 && (
                <section key={kind}>
                  <h3>{title}</h3>
                  <ul>
                    {pages.map((one) => (
                      <li key={one.id}>
                        <button type="button" className="link-button" onClick={() => onPage(one.id)}>
                          {one.title}
                        </button>
                      </li>
                    ))}
                  </ul>
                </section>
              )
            );
          })}
          {answers.length > 0 && (
            <section>
              <h3>Where it is done</h3>
              <dl className="help__where">
                {answers.map(({ title, text }) => (
                  <div key={title}>
                    <dt>{title}</dt>
                    <dd>{text}</dd>
                  </div>
                ))}
              </dl>
            </section>
          )}
        </>
      ) : (
        <Page page={helpPage(page)}>
          {(title) => (
            <h2 ref={heading} tabIndex={-1}>
              {title}
            </h2>
          )}
        </Page>
      )}
    </aside>
  );
}

interface PageProps {
  readonly page: HelpPage;
  readonly children: (title: string) => React.ReactNode;
}

function Page({ page, children }: PageProps) {
  return (
    <article className="help__page">
      {children(page.title)}
      <HelpDrawing page={page.id} />
      <p>{page.about}</p>
      <dl>
        <dt>In words</dt>
        <dd>{page.formula}</dd>
        <dt>Published</dt>
        <dd>
          {page.reliability.text} <small>{page.reliability.source}</small>
        </dd>
        <dt>Left out</dt>
        <dd>{page.leavesOut}</dd>
      </dl>
    </article>
  );
}
