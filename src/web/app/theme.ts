export type Theme = 'device' | 'light' | 'dark';

const KEY = 'theme';

export function theme(): Theme {
  const kept = localStorage.getItem(KEY);
  return kept === 'light' || kept === 'dark' ? kept : 'device';
}

/** Puts the chosen theme on the page; `device` leaves it to the device. */
export function applyTheme(chosen: Theme = theme()): void {
  localStorage.setItem(KEY, chosen);
  if (chosen === 'device') delete document.documentElement.dataset.theme;
  else document.documentElement.dataset.theme = chosen;
}
