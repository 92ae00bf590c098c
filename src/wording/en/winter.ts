/** English wording of winter. Keys begin with the room they belong to; {{name}} stands for a value. */
export const winterWords = {} as const;
