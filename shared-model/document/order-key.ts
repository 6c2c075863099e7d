/** Compares by code unit; `localeCompare` misorders fractional keys. */
export const compareCodeUnits = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Order of two records: by fractional key, ties broken by id, so every replica sorts alike. */
export const byOrder = (
  a: { readonly order: string; readonly id: string },
  b: { readonly order: string; readonly id: string },
): number => compareCodeUnits(a.order, b.order) || compareCodeUnits(a.id, b.id);
