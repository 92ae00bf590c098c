/** English wording of cli. Keys begin with the room they belong to; {{name}} stands for a value. */
export const cliWords = {} as const;
