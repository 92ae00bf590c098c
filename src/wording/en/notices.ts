/** English wording of notices. Keys begin with the room they belong to; {{name}} stands for a value. */
export const noticesWords = {} as const;
