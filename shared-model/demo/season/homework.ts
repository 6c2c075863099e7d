import type { DemoSolo } from "../demo-data.ts";

/** Work at home that somebody wrote down. Ifeoma writes hers down most: she is away most. */
// biome-ignore format: one sitting a line
export const DEMO_HOMEWORK: readonly DemoSolo[] = [
  { day: -106, by: "ifeoma", chair: "Gt2", song: "NW", feel: "wobble" },
  { day: -98, by: "ifeoma", chair: "Gt2", song: "MD", feel: "wobble" },
  { day: -96, by: "ifeoma", chair: "Gt2", song: "MD", feel: "clean" },
  { day: -91, by: "lucia", chair: "Dr", song: "UT", feel: "wobble" },
  { day: -83, by: "anneli", chair: "Ky", song: "VB", feel: "wobble" },
  { day: -76, by: "ifeoma", chair: "Gt2", song: "UT", feel: "clean" },
  { day: -70, by: "minjae", chair: "Bs", song: "SB", feel: "wobble" },
  { day: -62, by: "lucia", chair: "Dr", song: "UT", feel: "clean" },
  { day: -61, by: "minjae", chair: "Bs", song: "BL", feel: "clean" },
  { day: -56, by: "ifeoma", chair: "Gt2", song: "EE", feel: "wobble" },
  { day: -54, by: "ifeoma", chair: "Gt2", song: "EE", feel: "clean" },
  { day: -53, by: "karim", chair: "Bs", song: "NW", feel: "wobble" },
  { day: -51, by: "karim", chair: "Bs", song: "QP", feel: "clean" },
  { day: -43, by: "anneli", chair: "Ky", song: "KR", feel: "wobble" },
  { day: -41, by: "priya", chair: "Vx", song: "LO", feel: "clean" },
  { day: -40, by: "ifeoma", chair: "Gt2", song: "WA", feel: "wobble" },
  { day: -36, by: "anneli", chair: "Ky", song: "WA", feel: "clean" },
  { day: -34, by: "tomasz", chair: "Gt1", song: "LO", feel: "clean" },
  { day: -33, by: "ifeoma", chair: "Gt2", song: "QP", feel: "wobble" },
  { day: -27, by: "ifeoma", chair: "Gt2", song: "LO", feel: "clean" },
  { day: -26, by: "lucia", chair: "Dr", song: "SB", feel: "wobble" },
  { day: -22, by: "ifeoma", chair: "Gt2", song: "QP", feel: "clean" },
  { day: -19, by: "anneli", chair: "Ky", song: "LO", feel: "wobble" },
  { day: -15, by: "minjae", chair: "Bs", song: "LO", feel: "clean" },
  { day: -13, by: "ifeoma", chair: "Gt2", song: "MM", feel: "wobble" },
  { day: -12, by: "anneli", chair: "Ky", song: "AL", feel: "wobble" },
  { day: -11, by: "lucia", chair: "Dr", song: "UT", feel: "clean" },
];
