/**
 * The roles of a grid on free elements. Not a table: its first three columns stand partly above each other, which
 * table layout cannot do.
 */
export const rowRole = (index: number) => ({ role: "row", "aria-rowindex": index }) as const;
/** `label` is given where the cell is read as one thing. */
export const cellRole = (column: number, label?: string) =>
  ({ role: "gridcell", "aria-colindex": column, "aria-label": label }) as const;
export const rowHeadRole = (column: number) => ({ role: "rowheader", "aria-colindex": column }) as const;
export const columnHeadRole = (column: number) =>
  ({ role: "columnheader", "aria-colindex": column }) as const;
