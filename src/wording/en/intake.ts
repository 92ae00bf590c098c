/** English wording of intake. Keys begin with the room they belong to; {{name}} stands for a value. */
export const intakeWords = {} as const;
