import { headPath } from "./note-head.ts";

/** Tightrow's own sign: a taut line, and a head that stands on it. */
export const Mark = ({ size = 28 }: { readonly size?: number }) => (
  <svg aria-hidden="true" width={size} height={size} viewBox="0 0 32 32" fill="none" stroke="currentColor">
    <path d="M1 23H31M1 19.5V26.5M31 19.5V26.5" strokeWidth="1.75" />
    <path d={headPath({ x: 17, y: 16, radius: 8 })} fill="currentColor" stroke="none" />
  </svg>
);
