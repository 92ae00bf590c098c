/** English wording of records. Keys begin with the room they belong to; {{name}} stands for a value. */
export const recordsWords = {} as const;
