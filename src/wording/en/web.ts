/** English wording of web. Keys begin with the room they belong to; {{name}} stands for a value. */
export const webWords = {} as const;
