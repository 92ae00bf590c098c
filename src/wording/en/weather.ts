/** English wording of weather. Keys begin with the room they belong to; {{name}} stands for a value. */
export const weatherWords = {} as const;
