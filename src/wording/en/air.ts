/** English wording of air. Keys begin with the room they belong to; {{name}} stands for a value. */
export const airWords = {} as const;
