/**
 * Month names and half-day words in the languages keepers' loggers write, taken from the runtime's own locale data
 * (Unicode CLDR), so that no list has to be kept by hand. Croatian is left out: its listopad is another month than the Polish and Czech one.
 */
const locales = [
  'en',
  'de',
  'fr',
  'es',
  'it',
  'pt',
  'nl',
  'pl',
  'cs',
  'sk',
  'sv',
  'da',
  'nb',
  'fi',
  'hu',
  'el',
  'ru',
  'uk',
  'ro',
  'tr',
  'sl',
];

const tidy = (word: string) => word.normalize('NFC').toLowerCase().replace(/\.$/, '');

function collectMonths(): Map<string, number> {
  const months = new Map<string, number>();
  for (const locale of locales) {
    for (const style of ['long', 'short'] as const) {
      const alone = new Intl.DateTimeFormat(locale, { month: style, timeZone: 'UTC' });
      const inDate = new Intl.DateTimeFormat(locale, { day: 'numeric', month: style, timeZone: 'UTC' });
      for (let month = 0; month < 12; month += 1) {
        const at = Date.UTC(2026, month, 15);
        for (const parts of [alone.formatToParts(at), inDate.formatToParts(at)]) {
          const word = tidy(parts.find((part) => part.type === 'month')?.value ?? '');
          if (!word || /^\d+$/.test(word)) continue;
          // A short name shared by two months in different languages says nothing.
          const known = months.get(word);
          months.set(word, known === undefined || known === month + 1 ? month + 1 : Number.NaN);
        }
      }
    }
  }
  return months;
}

function collectHalfDays(): Map<string, 'am' | 'pm'> {
  const words = new Map<string, 'am' | 'pm'>();
  for (const locale of [...locales, 'zh', 'ja', 'ko']) {
    const format = new Intl.DateTimeFormat(locale, { hour: 'numeric', hour12: true, timeZone: 'UTC' });
    const word = (hour: number) =>
      format.formatToParts(Date.UTC(2026, 0, 15, hour)).find((part) => part.type === 'dayPeriod')?.value ?? '';
    const [am, pm] = [squeeze(word(3)), squeeze(word(15))];
    if (am && pm && am !== pm) {
      words.set(am, 'am');
      words.set(pm, 'pm');
    }
  }
  for (const [word, half] of [
    ['a', 'am'],
    ['p', 'pm'],
  ] as const)
    words.set(word, half);
  return words;
}

/** "p. m." and "P.M." are the same word. */
function squeeze(word: string): string {
  return word.toLowerCase().replace(/[.\s\u00a0\u202f]/g, '');
}

let months: Map<string, number> | undefined;
let halfDays: Map<string, 'am' | 'pm'> | undefined;

/** 1 to 12 for a month name in any of the languages, whole or short; `undefined` when it is none or two of them disagree. */
export function monthOfWord(word: string): number | undefined {
  months ??= collectMonths();
  const found = months.get(tidy(word));
  return found === undefined || Number.isNaN(found) ? undefined : found;
}

export function halfDayOfWord(word: string): 'am' | 'pm' | undefined {
  halfDays ??= collectHalfDays();
  return halfDays.get(squeeze(word));
}

/** What a header cell promises. Content decides; the words only help. */
export const headerWords = {
  moment:
    /date|time|zeit|datum|heure|horodat|fecha|hora|data\b|ora\b|čas|cas\b|tid\b|dato|klok|aika|päiv|时间|日期|日時|時刻|время|дата|ώρα|ημερομην|godzina|dátum|idő/i,
  temperature: /temp|teplot|lämpö|温度|溫度|температур|θερμοκρ|hőmérs|°\s*[cf]|℃|℉|\bt\d*\b/i,
  humidity: /hum|feucht|vlhk|wilgot|kosteus|湿度|濕度|влажн|υγρασ|\brh\b|\brf\b|%|páratart|fugt|fukt|luftf/i,
  maximum: /^(max|höchst|màx|máx)|\bmax/i,
  minimum: /^(min|tiefst|mín)|\bmin\b|minimum|minim/i,
  mean: /\b(avg|average|mean|mittel|moy|media|média|gemiddeld|průměr|średni)/i,
  probe: /probe|sensor|channel|logger|fühler|sonde|sonda|kanal|canal|device|serial|čidlo|anturi|\bid\b|name/i,
  index: /^(#|no\.?|nr\.?|n°|num.*|index|row|record|entry|zeile|satz|číslo|lp\.?|rec)$/i,
  battery: /batt|volt|akku|bat\b|pile|baterie/i,
  dewPoint: /dew|taupunkt|rosée|rocío|rosný|daggpunkt|rugiada/i,
} as const;
