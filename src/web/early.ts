/**
 * Runs before anything else: puts the chosen theme on the page, and asks for what the first screen shows while the screens
 * themselves are still on their way. Imports nothing, so that it stays a few hundred bytes.
 */
const early = new Map<string, Promise<Response>>();
Object.assign(globalThis, { early });

function askEarly(path: string): Promise<Response> {
  const answer = fetch(`/api/v1/${path}`);
  answer.catch(() => undefined);
  early.set(path, answer);
  return answer;
}

async function askForRound(group: Promise<Response>) {
  const answer = await group;
  if (!answer.ok) return;
  const { zone } = (await answer.clone().json()) as { zone: string };
  const today = new Intl.DateTimeFormat('en-CA', { timeZone: zone }).format();
  void askEarly(`round?day=${today}`);
}

const theme = localStorage.getItem('theme');
if (theme === 'light' || theme === 'dark') document.documentElement.dataset.theme = theme;

void askEarly('session');
const group = askEarly('group');
if (location.pathname === '/') {
  void askEarly('undelivered');
  askForRound(group).catch(() => undefined);
}
