/** English wording of heat. Keys begin with the room they belong to; {{name}} stands for a value. */
export const heatWords = {} as const;
