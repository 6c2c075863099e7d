/**
 * The roles of a grid on free elements, where a table's layout cannot do it: columns that stand partly above each other,
 * columns to the scale of bars.
 */
export const rowRole = (index: number) => ({ role: "row", "aria-rowindex": index }) as const;
export const cellRole = (column: number) => ({ role: "gridcell", "aria-colindex": column }) as const;
export const rowHeadRole = (column: number) => ({ role: "rowheader", "aria-colindex": column }) as const;
export const columnHeadRole = (column: number) =>
  ({ role: "columnheader", "aria-colindex": column }) as const;
