/** Rows stand below the heading of a sheet, so that messages name the row a person sees. */
export const FIRST_ROW = 6
