import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import WebSocket from 'ws';
import { clickAt } from './pointer.ts';
import { callOf, type Plain, type RemotePage } from './remote-page.ts';

const PATHS = [process.env.FIREFOX_PATH ?? '', '/usr/bin/firefox-esr', '/usr/bin/firefox'];

/** Where a Firefox is on this machine, or null. */
export const firefoxPath = (): string | null => PATHS.find((path) => path !== '' && existsSync(path)) ?? null;

/** Nothing is asked, fetched or shown that is not the page's; files are saved without a question. */
const preferences = (downloads: string): string =>
  Object.entries({
    'app.update.enabled': false,
    'browser.download.dir': downloads,
    'browser.download.folderList': 2,
    'browser.download.useDownloadDir': true,
    'browser.shell.checkDefaultBrowser': false,
    'browser.startup.homepage_override.mstone': 'ignore',
    'datareporting.policy.dataSubmissionEnabled': false,
    'network.captive-portal-service.enabled': false,
    'network.connectivity-service.enabled': false,
  })
    .map(([name, value]) => `user_pref(${JSON.stringify(name)}, ${JSON.stringify(value)});\n`)
    .join('');

type Message = { id?: number; type?: string; message?: string; result?: unknown };

/** Commands of WebDriver BiDi (W3C) over its socket, each answered under its number. */
class Commands {
  #last = 0;
  readonly #waiting = new Map<number, (answer: Message) => void>();

  private constructor(readonly socket: WebSocket) {
    socket.on('message', (data) => {
      const message = JSON.parse(String(data)) as Message;
      this.#waiting.get(message.id ?? 0)?.(message);
      this.#waiting.delete(message.id ?? 0);
    });
  }

  static open(url: string): Promise<Commands> {
    const socket = new WebSocket(url);
    return new Promise((opened, failed) => {
      socket.on('open', () => opened(new Commands(socket)));
      socket.on('error', failed);
    });
  }

  async send<Result>(method: string, params: object): Promise<Result> {
    this.#last += 1;
    const id = this.#last;
    const answer = await new Promise<Message>((answered) => {
      this.#waiting.set(id, answered);
      this.socket.send(JSON.stringify({ id, method, params }));
    });
    if (answer.type !== 'success') throw new Error(`${method} was refused: ${answer.message}`);
    return answer.result as Result;
  }
}

/** Starts a Firefox without a window in a profile of its own. */
export async function startFirefox(): Promise<RemotePage> {
  const program = firefoxPath();
  if (program === null) throw new Error('There is no Firefox here: apt-get install firefox-esr');
  const folder = mkdtempSync(join(tmpdir(), 'raybend-firefox-'));
  const [profile, downloads] = [join(folder, 'profile'), join(folder, 'downloads')];
  mkdirSync(profile);
  mkdirSync(downloads);
  writeFileSync(join(profile, 'user.js'), preferences(downloads));
  const firefox = spawn(
    program,
    ['--headless', '--no-remote', '--profile', profile, '--remote-debugging-port=0'],
    { env: { ...process.env, HOME: folder }, stdio: ['ignore', 'ignore', 'pipe'] },
  );
  const ended = new Promise((end) => firefox.on('exit', end));
  const address = await new Promise<string>((found, failed) => {
    createInterface(firefox.stderr).on('line', (line) => {
      const said = /WebDriver BiDi listening on (\S+)/.exec(line);
      if (said !== null) found(said[1]!);
    });
    firefox.on('error', failed);
    firefox.on('exit', (status) =>
      failed(new Error(`Firefox ended with ${status} before it could be driven.`)),
    );
  });

  const commands = await Commands.open(`${address}/session`);
  await commands.send('session.new', { capabilities: {} });
  const { contexts } = await commands.send<{ contexts: { context: string }[] }>(
    'browsingContext.getTree',
    {},
  );
  const { context } = contexts[0]!;
  await commands.send('browsingContext.setViewport', { context, viewport: { width: 1280, height: 800 } });

  type Evaluated = {
    result?: { value?: string; sharedId?: string };
    exceptionDetails?: { text: string };
  };
  const evaluate = async (expression: string): Promise<Evaluated['result']> => {
    const { result, exceptionDetails } = await commands.send<Evaluated>('script.evaluate', {
      expression,
      target: { context },
      awaitPromise: true,
    });
    if (exceptionDetails !== undefined) throw new Error(`In the page: ${exceptionDetails.text}`);
    return result;
  };
  return {
    browser: 'Firefox',
    downloads,
    open: async (url) =>
      void (await commands.send('browsingContext.navigate', { context, url, wait: 'complete' })),
    reload: async () => void (await commands.send('browsingContext.reload', { context, wait: 'complete' })),
    run: async (work, ...given) =>
      JSON.parse((await evaluate(callOf(work, given as readonly Plain[])))?.value ?? 'null'),
    async click(x, y) {
      await commands.send('input.performActions', { context, actions: clickAt(x, y) });
    },
    async chooseFile(selector, path) {
      const element = await evaluate(`document.querySelector(${JSON.stringify(selector)})`);
      await commands.send('input.setFiles', { context, element, files: [path] });
    },
    async close() {
      firefox.kill();
      await ended;
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
