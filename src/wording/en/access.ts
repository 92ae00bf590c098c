/** English wording of access. Keys begin with the room they belong to; {{name}} stands for a value. */
export const accessWords = {} as const;
