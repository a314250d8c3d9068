import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { type AddressInfo, connect, createServer, type Socket } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { installed } from './installed.ts';

/** A browser that is told what to do by the commands of W3C WebDriver (2018), each over the wire of its own. */
export interface AutomatedBrowser {
  open(url: string): Promise<void>;
  /** What the body of a function returns in the page; a promise is waited for. */
  run(body: string): Promise<unknown>;
  /** The page on paper, as its own style sheet asks; undefined where the browser cannot. */
  print(): Promise<Uint8Array | undefined>;
  close(): Promise<void>;
}

type Command = (name: string, parameters: object) => Promise<unknown>;

/** How long a browser may take to start, in ms. */
const STARTING = 30_000;

const FIREFOX = installed('firefox-esr', 'firefox');

/** Browsers by the engine they run pages with; undefined for one that this machine has not. */
export const BROWSERS: Readonly<Record<string, (() => Promise<AutomatedBrowser>) | undefined>> = {
  Firefox: FIREFOX === undefined ? undefined : () => startFirefox(FIREFOX),
  WebKit:
    installed('WebKitWebDriver') !== undefined && installed('Xvfb') !== undefined ? startWebKit : undefined,
};

/** Said where the tests of a browser are left out. */
export const NOT_INSTALLED: Readonly<Record<string, string>> = {
  Firefox: 'left out: this machine has no Firefox (on Debian: apt install firefox-esr)',
  WebKit: 'left out: this machine has no WebKit driver (on Debian: apt install webkit2gtk-driver xvfb)',
};

async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  server.close();
  return port;
}

/** Tries until it does not throw. */
async function started<T>(attempt: () => Promise<T>): Promise<T> {
  for (const end = Date.now() + STARTING; ; await wait(200)) {
    try {
      return await attempt();
    } catch (error) {
      if (Date.now() > end) throw error;
    }
  }
}

async function ended(...programs: readonly ChildProcess[]): Promise<void> {
  for (const program of programs) {
    if (program.exitCode !== null || program.signalCode !== null) continue;
    program.kill();
    await once(program, 'exit');
  }
}

/** What both browsers call `WebDriver:ExecuteAsyncScript` or `execute/async`. */
const scriptOf = (body: string) => ({
  script: `const done = arguments[0]; Promise.resolve((async () => { ${body} })()).then(done, (error) => done(String(error)));`,
  args: [],
});

async function startFirefox(program: string): Promise<AutomatedBrowser> {
  const profile = mkdtempSync(path.join(tmpdir(), 'fretlay-firefox-'));
  const port = await freePort();
  writeFileSync(path.join(profile, 'user.js'), `user_pref("marionette.port", ${port});\n`);
  const child = spawn(program, ['--headless', '--no-remote', '--marionette', '--profile', profile], {
    stdio: 'ignore',
    env: { ...process.env, HOME: profile },
  });
  const socket = await started(async () => {
    const tried = connect(port, '127.0.0.1');
    await once(tried, 'connect');
    return tried;
  });
  const command = marionetteCommands(socket);
  const valueGiven = async (name: string, parameters: object = {}) =>
    ((await command(name, parameters)) as { value?: unknown }).value;
  await command('WebDriver:NewSession', {});
  await command('WebDriver:SetTimeouts', { script: 120_000 });
  return {
    open: async (url) => void (await command('WebDriver:Navigate', { url })),
    run: (body) => valueGiven('WebDriver:ExecuteAsyncScript', scriptOf(body)),
    async print() {
      const margin = { top: 0, bottom: 0, left: 0, right: 0 };
      const parameters = { background: true, shrinkToFit: false, margin };
      return Buffer.from(String(await valueGiven('WebDriver:Print', parameters)), 'base64');
    },
    async close() {
      socket.destroy();
      await ended(child);
      rmSync(profile, { recursive: true, force: true });
    },
  };
}

/**
 * Commands over the socket of Firefox: each message is its length in bytes, a colon and JSON,
 * `[0, id, name, parameters]` there and `[1, id, error, result]` back
 * (Firefox source documentation, "Marionette: Protocol").
 */
function marionetteCommands(socket: Socket): Command {
  const waiting = new Map<number, (error: unknown, result: unknown) => void>();
  let received: Buffer = Buffer.alloc(0);
  socket.on('data', (data) => {
    received = Buffer.concat([received, data]);
    for (;;) {
      const colon = received.indexOf(':');
      const end = colon + 1 + Number(received.subarray(0, Math.max(colon, 0)));
      if (colon < 0 || received.length < end) return;
      const message = JSON.parse(received.subarray(colon + 1, end).toString());
      received = received.subarray(end);
      // The first message greets.
      if (Array.isArray(message)) waiting.get(message[1])?.(message[2], message[3]);
    }
  });
  let sent = 0;
  return (name, parameters) =>
    new Promise((resolve, reject) => {
      sent++;
      waiting.set(sent, (error, result) =>
        error === null ? resolve(result) : reject(new Error(`${name}: ${JSON.stringify(error)}`)),
      );
      const text = JSON.stringify([0, sent, name, parameters]);
      socket.write(`${Buffer.byteLength(text)}:${text}`);
    });
}

async function startWebKit(): Promise<AutomatedBrowser> {
  const home = mkdtempSync(path.join(tmpdir(), 'fretlay-webkit-'));
  const screen = spawn('Xvfb', ['-displayfd', '1', '-screen', '0', '1100x1400x24'], {
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  const [number] = await once(screen.stdout, 'data');
  const port = await freePort();
  const child = spawn('WebKitWebDriver', [`--port=${port}`], {
    stdio: 'ignore',
    env: {
      ...process.env,
      HOME: home,
      DISPLAY: `:${String(number).trim()}`,
      // No display of its own to draw with, and often no right to a sandbox, where tests run.
      WEBKIT_DISABLE_COMPOSITING_MODE: '1',
      WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS: '1',
    },
  });
  const command: Command = async (name, parameters) => {
    const request = { method: 'POST', body: JSON.stringify(parameters) };
    const response = await fetch(`http://127.0.0.1:${port}/session${name}`, request);
    const { value } = (await response.json()) as { value: unknown };
    if (!response.ok) throw new Error(`${name}: ${JSON.stringify(value)}`);
    return value;
  };
  const session = await started(() => command('', { capabilities: {} }));
  const at = `/${(session as { sessionId: string }).sessionId}`;
  await command(`${at}/timeouts`, { script: 120_000 });
  return {
    open: async (url) => void (await command(`${at}/url`, { url })),
    run: (body) => command(`${at}/execute/async`, scriptOf(body)),
    print: async () => undefined,
    async close() {
      await fetch(`http://127.0.0.1:${port}/session${at}`, { method: 'DELETE' });
      await ended(child, screen);
      rmSync(home, { recursive: true, force: true });
    },
  };
}
