/** Results that the Design sheets of earlier versions have and this one has not: on them they are no fields of somebody's own. */
export const namesGone: readonly string[] = ['CrestOverLowest_ft', 'IsSecondLighter']
