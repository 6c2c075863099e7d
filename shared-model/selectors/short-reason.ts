import type { Standing } from "./part-view.ts";

/** Why a status counts for less than its player said, in a few words, for a line that has room for no more; empty when it counts as marked. */
export const shortReason = ({ effective, slipped }: Pick<Standing, "effective" | "slipped">): string => {
  switch (effective?.reason.is) {
    case "slipped since":
      return "slipped since";
    case "changed since":
      return "changed: learn it again";
    case "needs a run together":
      return "waits for a run together";
    default:
      return slipped ? "slipped last time" : "";
  }
};
