/** The top of a water line lies so far below the frost: IPC 305.4, from memory. */
export const BELOW_FROST_IN = 6
