import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';

interface Node {
  readonly role?: string;
  readonly alt?: string;
  readonly children?: readonly Node[];
}
const nodes = (node: Node): Node[] => [node, ...(node.children ?? []).flatMap(nodes)];

/** Letters alone: a reader tells spaces at its own discretion. */
export const squeeze = (text: string): string => text.replace(/\s+/g, '');

/** A paper as a program that reads PDF sees it. */
export async function readBack(bytes: Buffer) {
  const file = await getDocument({ data: new Uint8Array(bytes), verbosity: 0 }).promise;
  let text = '';
  const found: Node[] = [];
  for (let number = 1; number <= file.numPages; number++) {
    const page = await file.getPage(number);
    text += (await page.getTextContent()).items.map((item) => ('str' in item ? item.str : '')).join('');
    found.push(...nodes((await page.getStructTree()) as Node));
  }
  const { info } = (await file.getMetadata()) as { info: { Title?: string } };
  const marked = ((await file.getMarkInfo()) as { Marked?: boolean } | null)?.Marked;
  const size = (await file.getPage(1)).view;
  const roles = found.map((node) => node.role ?? '');
  await file.destroy();
  return {
    pages: file.numPages,
    text: squeeze(text),
    roles,
    count: (role: string) => roles.filter((one) => one === role).length,
    alts: found.flatMap((node) => (node.alt ? [node.alt] : [])),
    title: info.Title,
    marked,
    widthPt: size[2]!,
    heightPt: size[3]!,
  };
}
