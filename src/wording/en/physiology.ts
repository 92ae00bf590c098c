/** English wording of physiology. Keys begin with the room they belong to; {{name}} stands for a value. */
export const physiologyWords = {} as const;
