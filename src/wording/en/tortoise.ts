/** English wording of tortoise. Keys begin with the room they belong to; {{name}} stands for a value. */
export const tortoiseWords = {} as const;
