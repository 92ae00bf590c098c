// Finds the system's Chromium or Chrome for the browser tests; installs one when it may; otherwise says why not and what to do.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';

const usual = [
  process.env.STILLWINTER_CHROMIUM,
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/snap/bin/chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe',
].filter((path) => typeof path === 'string' && path.length > 0);

const works = (path) => spawnSync(path, ['--version'], { timeout: 20_000 }).status === 0;
const found = () => usual.find((path) => existsSync(path) && works(path));

async function downloaded() {
  const { chromium } = await import('playwright-core');
  const path = chromium.executablePath();
  return existsSync(path) && works(path) ? path : undefined;
}

/** Path of a Chromium that starts. Throws with the reasons and the cure when none can be had. */
export async function ensureChromium(root) {
  const tried = [];
  const already = found() ?? (await downloaded());
  if (already) return already;
  tried.push('no Chromium or Chrome at the usual places (STILLWINTER_CHROMIUM can name one)');
  if (process.platform === 'linux' && process.getuid?.() === 0 && existsSync('/usr/bin/apt-get')) {
    console.log('Installing Chromium with apt-get for the browser tests ...');
    const quiet = {
      stdio: ['ignore', 'ignore', 'inherit'],
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    };
    spawnSync('apt-get', ['update', '-qq'], quiet);
    const install = spawnSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium'], quiet);
    const path = found();
    if (path) return path;
    tried.push(`apt-get install chromium ended with ${install.status}`);
  }
  console.log('Asking the browser tool for a build of its own ...');
  const own = spawnSync(
    process.execPath,
    ['node_modules/playwright-core/cli.js', 'install', 'chromium-headless-shell'],
    {
      cwd: root,
      stdio: 'inherit',
      timeout: 300_000,
    },
  );
  const path = await downloaded();
  if (path) return path;
  tried.push(`the browser tool's own download ended with ${own.status}`);
  throw new Error(
    `The browser tests need Chromium and none could be found or installed:\n- ${tried.join('\n- ')}\n` +
      'Cure: install Chromium or Chrome, or set STILLWINTER_CHROMIUM to the path of one, and run npm test again.',
  );
}
