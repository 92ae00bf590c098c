/** A probe's name as a sender may write it: with dashes and small letters (`fish-box-lid`). */
export const spelled = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-|-$/g, '');
