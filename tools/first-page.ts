import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import { promisify } from 'node:util';
import { brotliCompress, constants, gzip } from 'node:zlib';
import type { Plugin, Rolldown } from 'vite';
import { sections } from '../src/web/app/sections.ts';
import { say } from '../src/wording/say.ts';

const EARLY = '/early.ts';
const PACKED = new Set(['.html', '.js', '.css', '.svg', '.webmanifest']);
const gzipped = promisify(gzip);
const brotlied = promisify(brotliCompress);

/** The frame of every screen as it stands before any script has run; the links work without it. */
function frame() {
  const links = sections.map(([to, key]) => `<a href="${to}"><span>${say(key)}</span></a>`).join('');
  return `<a class="skip" href="#main">${say('web.skip')}</a>
      <header class="head"><div class="head-row">
        <a href="/" class="brand">Stillwinter</a>
        <nav class="nav" aria-label="${say('web.nav.label')}">${links}</nav>
        <a href="/now" class="head-now"><span>${say('web.nav.now')}</span></a>
        <button type="button" class="button menu-button">${say('web.nav.menu')}</button>
      </div></header>
      <main id="main" class="page" tabindex="-1"><p class="soft" role="status">${say('web.reading')}</p></main>
      <footer class="foot"><div>${say('web.foot.caution')}</div></footer>`;
}

type Graph = Parameters<Rolldown.CodeSplittingNameFunction>[1];

/** Whether the first screen needs this module at once: it is reached from the page without any `import()`. */
function isFirst(id: string, graph: Graph, asked = new Set<string>()): boolean {
  if (asked.has(id)) return false;
  asked.add(id);
  const info = graph.getModuleInfo(id);
  if (!info || id.endsWith(EARLY)) return false;
  return info.isEntry || info.importers.some((importer) => isFirst(importer, graph, asked));
}

/** One file of script for the first screen: on a slow network each further one waits its turn. */
export const firstScreenGroups = [
  { debugName: 'first screen', name: (id: string, graph: Graph) => (isFirst(id, graph) ? 'first' : null) },
];

/** The page as it leaves the server: the frame in it, and the small script that asks early ahead of everything. */
export const firstPage: Plugin = {
  name: 'first-page',
  apply: 'build',
  transformIndexHtml: {
    order: 'post',
    handler(html, { bundle }) {
      const early = Object.values(bundle ?? {}).find(
        (part) => part.type === 'chunk' && part.facadeModuleId?.endsWith(EARLY),
      );
      if (!early) throw new Error(`The build holds no ${EARLY}`);
      return {
        html: html.replace('<!--frame-->', frame()),
        tags: [{ tag: 'script', attrs: { src: `/${early.fileName}` }, injectTo: 'head-prepend' }],
      };
    },
  },
};

/** Packs what the server sends, once and as tightly as it goes. */
export function packed(folder: string): Plugin {
  return {
    name: 'packed',
    apply: 'build',
    enforce: 'post',
    closeBundle: {
      order: 'post',
      sequential: true,
      async handler() {
        const entries = readdirSync(folder, { recursive: true, withFileTypes: true });
        const files = entries.filter((entry) => entry.isFile() && PACKED.has(extname(entry.name)));
        await Promise.all(
          files.map(async (entry) => {
            const path = join(entry.parentPath, entry.name);
            const bytes = readFileSync(path);
            writeFileSync(`${path}.gz`, await gzipped(bytes, { level: 9 }));
            writeFileSync(`${path}.br`, await brotlied(bytes, { params: { [constants.BROTLI_PARAM_QUALITY]: 11 } }));
          }),
        );
      },
    },
  };
}
