/** The top of a water line lies so far below the frost: IPC 305.4, from memory. */
export const BELOW_FROST_IN = 6
/** Frost goes down to the water of full tanks. */
export const FROST_REACHES_WATER = 'AND(FrostDepth_in>0,12*WaterLevel_ft<FrostDepth_in)'
