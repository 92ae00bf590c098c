const LONGEST_SIDE_PX = 2000;
/** More than this is no picture of a telephone, and may not fit into the memory of one. */
const MOST_BYTES = 60_000_000;

type Shrunk = { readonly image: Blob } | { readonly fault: 'tooLarge' | 'noPicture' };

/**
 * The picture of a file drawn anew on this device, at most 2,000 px on its longer side: it goes out quickly over a weak network, and
 * place and device stay behind with the file.
 */
export async function shrink(file: File): Promise<Shrunk> {
  if (file.size > MOST_BYTES) return { fault: 'tooLarge' };
  let drawn: ImageBitmap;
  try {
    drawn = await createImageBitmap(file);
  } catch {
    return { fault: 'noPicture' };
  }
  const scale = Math.min(1, LONGEST_SIDE_PX / Math.max(drawn.width, drawn.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(drawn.width * scale));
  canvas.height = Math.max(1, Math.round(drawn.height * scale));
  canvas.getContext('2d')?.drawImage(drawn, 0, 0, canvas.width, canvas.height);
  drawn.close();
  const image = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/jpeg', 0.88));
  // A browser that has no memory left for the canvas hands back nothing.
  return image ? { image } : { fault: 'tooLarge' };
}
