/** English wording of server. Keys begin with the room they belong to; {{name}} stands for a value. */
export const serverWords = {} as const;
