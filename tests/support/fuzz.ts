/** Parameters for a property: at least 1,000 runs, times the environment variable TIGHTROW_FUZZ. */
export const laws = (runs = 1000): { numRuns: number } => ({
  numRuns: Math.ceil(runs * Number(process.env.TIGHTROW_FUZZ ?? 1)),
});
