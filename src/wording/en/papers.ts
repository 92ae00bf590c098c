/** English wording of papers. Keys begin with the room they belong to; {{name}} stands for a value. */
export const papersWords = {} as const;
