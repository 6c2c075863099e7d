import type { DemoDetails } from "../demo-data.ts";
import { GIVEN_DETAILS } from "./given.ts";
import { OTHER_DETAILS } from "./on-the-way.ts";
import { SHAKY_DETAILS } from "./shaky.ts";
import { SOLID_DETAILS } from "./solid.ts";

/** What is written about every song, and how far each player is with it. */
export const DEMO_DETAILS: readonly DemoDetails[] = [
  ...GIVEN_DETAILS,
  ...SOLID_DETAILS,
  ...SHAKY_DETAILS,
  ...OTHER_DETAILS,
];
