import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/**
 * docs/third-party.md: the packages a build can hold, with their licences, from the lockfile and from what each package
 * itself brings. `npx tsx tests/architecture/notices.ts` writes it; a test says when it has gone stale.
 */
export const NOTICES = 'docs/third-party.md';

interface LockedPackage {
  readonly version?: string;
  readonly license?: string;
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly peerDependencies?: Readonly<Record<string, string>>;
  readonly peerDependenciesMeta?: Readonly<Record<string, { readonly optional?: boolean }>>;
}

interface Notice {
  readonly name: string;
  readonly version: string;
  readonly licence: string;
  readonly copyright: readonly string[];
  /** Licence and notice files, without the lines of copyright; empty where the package brings none. */
  readonly texts: readonly string[];
}

const locked = (): Readonly<Record<string, LockedPackage>> =>
  (JSON.parse(readFileSync('package-lock.json', 'utf8')) as { packages: Record<string, LockedPackage> })
    .packages;

/** Where Node would find `name` from the package in `from`: its own node_modules first, then outwards. */
function placeOf(
  packages: Readonly<Record<string, LockedPackage>>,
  from: string,
  name: string,
): string | null {
  for (let folder = from; ; folder = folder.slice(0, Math.max(0, folder.lastIndexOf('/node_modules/')))) {
    const place = join(folder, 'node_modules', name);
    if (packages[place] !== undefined) return place;
    if (folder === '') return null;
  }
}

/** Folders of the packages named under `dependencies`, and of all that these need in turn. */
export function runtimePackages(): string[] {
  const packages = locked();
  const found = new Set<string>();
  const follow = (folder: string): void => {
    const { dependencies, peerDependencies, peerDependenciesMeta } = packages[folder] ?? {};
    const peers = Object.keys(peerDependencies ?? {}).filter(
      (name) => !peerDependenciesMeta?.[name]?.optional,
    );
    for (const name of [...Object.keys(dependencies ?? {}), ...peers]) {
      const place = placeOf(packages, folder, name);
      if (place === null || found.has(place)) continue;
      found.add(place);
      follow(place);
    }
  };
  follow('');
  return [...found].sort();
}

const COPYRIGHT = /^\W*(copyright|©|\(c\))\b.*\d{4}|^\W*copyright (\(c\)|©)/i;
/** Headings that name the licence and nothing else. */
const HEADING = /^\W*(the )?[\w .-]{0,20}licen[cs]e( \(?(MIT|ISC|X11)\)?)?\W*$/i;

function noticeOf(folder: string): Notice {
  const about = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as {
    name: string;
    version: string;
    license?: string;
  };
  const files = readdirSync(folder)
    .filter((file) => /^(licen[cs]e|copying|notice)([-.].*)?$/i.test(file))
    .sort();
  const copyright = new Set<string>();
  const texts: string[] = [];
  for (const file of files) {
    const kept: string[] = [];
    for (const line of readFileSync(join(folder, file), 'utf8')
      .replace(/^\uFEFF/, '')
      .split(/\r?\n/)) {
      if (COPYRIGHT.test(line)) copyright.add(line.replace(/^[\s#*]+|\s+$/g, ''));
      else if (!HEADING.test(line)) kept.push(line.trimEnd());
    }
    texts.push(kept.join('\n').trim());
  }
  const declared = locked()[folder]?.license ?? about.license;
  return {
    name: about.name,
    version: about.version,
    licence: (declared ?? licenceByText(folder, texts)).replace(/^\((.*)\)$/, '$1'),
    copyright: [...copyright],
    texts: texts.filter((text) => text !== ''),
  };
}

/** For a package that declares no licence: its text is looked at, and an unknown one is refused. */
function licenceByText(folder: string, texts: readonly string[]): string {
  if (texts.some((text) => /^\s*Permission is hereby granted, free of charge/m.test(text))) return 'MIT';
  throw new Error(
    `${folder} declares no licence that is known here: read its files, and name it in notices.ts.`,
  );
}

/** Texts that differ in line breaks, quotes and spaces only are one text. */
const sameness = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, ' ')
    .trim();

/** What the WebAssembly of four packages was compiled from; the packages do not say it in a file. From memory. */
const COMPILED = [
  ['CharLS', '@cornerstonejs/codec-charls', 'BSD-3-Clause'],
  ['libjpeg-turbo', '@cornerstonejs/codec-libjpeg-turbo-8bit', 'IJG, BSD-3-Clause and Zlib'],
  ['OpenJPEG', '@cornerstonejs/codec-openjpeg', 'BSD-2-Clause'],
  ['OpenJPH', '@cornerstonejs/codec-openjph', 'BSD-2-Clause'],
] as const;

const cell = (text: string): string => text.replaceAll('|', '\\|').replaceAll('<', '&lt;');

/** The whole page. Throws where a package is not installed or its licence is not known. */
export function thirdPartyPage(): string {
  // One version may lie in several folders; it is named once.
  const named = runtimePackages()
    .map(noticeOf)
    .map((notice) => [`${notice.name} ${notice.version}`, notice] as const);
  const notices = [...new Map(named).values()].sort((one, other) => (one.name < other.name ? -1 : 1));
  const texts = new Map<string, { text: string; of: string[] }>();
  const without: string[] = [];
  for (const { name, version, texts: brought } of notices) {
    if (brought.length === 0) without.push(`${name} ${version}`);
    for (const text of brought) {
      const known = texts.get(sameness(text)) ?? { text, of: [] };
      known.of.push(`${name} ${version}`);
      texts.set(sameness(text), known);
    }
  }
  return [
    '# Third-party notices',
    '',
    '<!-- Written by tests/architecture/notices.ts from package-lock.json and the packages; do not edit. -->',
    '',
    'Packages that Raybend names as dependencies, and all that these need in turn. A build holds parts of them, and nothing',
    'from any other package; the bundler leaves out what is never called. Packages for developing and testing are not listed: no build holds them.',
    '',
    '| package | version | licence | copyright, as its licence file says |',
    '|---|---|---|---|',
    ...notices.map(
      ({ name, version, licence, copyright }) =>
        `| ${name} | ${version} | ${licence} | ${cell(copyright.join('; ')) || '–'} |`,
    ),
    '',
    `Without a licence file, under the licence that they declare: ${without.join(', ')}.`,
    '',
    '## Compiled into WebAssembly',
    '',
    '| library | in | licence |',
    '|---|---|---|',
    ...COMPILED.map(([library, home, licence]) => `| ${library} | ${home} | ${licence} |`),
    '',
    '## Texts',
    '',
    'Each text once, without its lines of copyright, which stand in the table above.',
    ...[...texts.values()].flatMap(({ text, of }) => [
      '',
      `### ${of.join(', ')}`,
      '',
      '```text',
      text,
      '```',
    ]),
    '',
  ].join('\n');
}

if (process.argv[1]?.endsWith('notices.ts')) writeFileSync(NOTICES, thirdPartyPage());
