/** Throws when a programmer broke a promise; never used for what people do. */
export function assert(condition: boolean, promise: string): asserts condition {
  if (!condition) throw new Error(promise);
}
