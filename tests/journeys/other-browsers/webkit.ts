import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { clickAt } from './pointer.ts';
import { callOf, type Plain, type RemotePage, until } from './remote-page.ts';

const DRIVER = '/usr/bin/WebKitWebDriver';
const SCREEN = '/usr/bin/Xvfb';

/** The plain window that WebKitGTK brings to try itself in; its folder is named by the kind of machine. */
function windowPath(): string | null {
  const libraries = existsSync('/usr/lib')
    ? readdirSync('/usr/lib').filter((name) => name.endsWith('-linux-gnu'))
    : [];
  const paths = libraries.map((machine) => join('/usr/lib', machine, 'webkit2gtk-4.1', 'MiniBrowser'));
  return paths.find((path) => existsSync(path)) ?? null;
}

/** Whether WebKitGTK with its driver, and a screen without a monitor for it, are on this machine. */
export const hasWebKit = (): boolean => existsSync(DRIVER) && existsSync(SCREEN) && windowPath() !== null;

const freePort = (): Promise<number> =>
  new Promise((found) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => found(typeof address === 'object' ? (address?.port ?? 0) : 0));
    });
  });

async function startScreen(): Promise<{ readonly screen: ChildProcess; readonly display: string }> {
  const screen = spawn(SCREEN, ['-displayfd', '1', '-screen', '0', '1400x1000x24', '-nolisten', 'tcp'], {
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  const number = await new Promise<string>((said, failed) => {
    createInterface(screen.stdout!).on('line', said);
    screen.on('error', failed);
  });
  return { screen, display: `:${number}` };
}

/** Starts WebKitGTK in a folder of its own, over WebDriver (W3C). */
export async function startWebKit(): Promise<RemotePage> {
  if (!hasWebKit()) throw new Error('There is no WebKit here: apt-get install webkit2gtk-driver xvfb');
  const folder = mkdtempSync(join(tmpdir(), 'raybend-webkit-'));
  const downloads = join(folder, 'downloads');
  mkdirSync(downloads);
  mkdirSync(join(folder, '.config'));
  writeFileSync(join(folder, '.config', 'user-dirs.dirs'), `XDG_DOWNLOAD_DIR="${downloads}"\n`);
  const { screen, display } = await startScreen();
  const port = await freePort();
  const driver = spawn(DRIVER, [`--port=${port}`], {
    env: {
      ...process.env,
      HOME: folder,
      XDG_CONFIG_HOME: join(folder, '.config'),
      XDG_DATA_HOME: join(folder, '.data'),
      XDG_CACHE_HOME: join(folder, '.cache'),
      DISPLAY: display,
      GDK_BACKEND: 'x11',
      NO_AT_BRIDGE: '1',
      WEBKIT_DISABLE_COMPOSITING_MODE: '1',
    },
    stdio: 'ignore',
  });
  const ended = Promise.all([screen, driver].map((one) => new Promise((end) => one.on('exit', end))));

  const call = async <Value>(method: string, path: string, body?: object): Promise<Value> => {
    const answer = await fetch(`http://127.0.0.1:${port}${path}`, {
      method,
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
    const { value } = (await answer.json()) as { value: Value & { error?: string; message?: string } };
    if (!answer.ok) throw new Error(`${path} was refused: ${value.error}, ${value.message}`);
    return value;
  };
  await until('WebKitWebDriver', () =>
    call('GET', '/status').then(
      () => true,
      () => false,
    ),
  );
  const { sessionId } = await call<{ sessionId: string }>('POST', '/session', {
    capabilities: {
      alwaysMatch: { 'webkitgtk:browserOptions': { binary: windowPath(), args: ['--automation'] } },
    },
  });
  const at = `/session/${sessionId}`;
  await call('POST', `${at}/window/rect`, { width: 1280, height: 840 });
  return {
    browser: 'WebKit',
    downloads,
    open: (url) => call('POST', `${at}/url`, { url }),
    reload: () => call('POST', `${at}/refresh`, {}),
    run: async (work, ...given) =>
      JSON.parse(
        await call<string>('POST', `${at}/execute/sync`, {
          script: `return ${callOf(work, given as readonly Plain[])}`,
          args: [],
        }),
      ),
    click: (x, y) => call('POST', `${at}/actions`, { actions: clickAt(x, y) }),
    async chooseFile(selector, path) {
      const found = await call<Record<string, string>>('POST', `${at}/element`, {
        using: 'css selector',
        value: selector,
      });
      await call('POST', `${at}/element/${Object.values(found)[0]}/value`, { text: path });
    },
    async close() {
      await call('DELETE', at);
      driver.kill();
      screen.kill();
      await ended;
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
