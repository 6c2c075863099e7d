/** What a person chose to see on the board, and in which order. Kept as a short text on the device. */
import { STAGES, type Stage } from "../board/song.ts";

export const SORTS = ["worst", "title", "repertoire", "running", "stale"] as const;
export type Sort = (typeof SORTS)[number];

export const FILTERS = ["gig", "not-ready", "mine", "stale", "no-ending"] as const;
export type Filter = (typeof FILTERS)[number];

/** working = all but the resting ones; all = these too. */
export type StageChoice = "working" | "all" | Stage;
export const STAGE_CHOICES: readonly StageChoice[] = ["working", ...STAGES, "all"];

export interface BoardChoices {
  readonly sort: Sort;
  /** Songs must pass every one of them. */
  readonly filters: ReadonlySet<Filter>;
  readonly stage: StageChoice;
  readonly search: string;
}

export const DEFAULT_CHOICES: BoardChoices = {
  sort: "worst",
  filters: new Set(),
  stage: "working",
  search: "",
};

/** `sort=title&show=gig,mine&stage=all`; what is as by default is left out, and so is the search. */
export const formatChoices = ({ sort, filters, stage }: BoardChoices): string =>
  [
    sort === DEFAULT_CHOICES.sort ? "" : `sort=${sort}`,
    filters.size === 0 ? "" : `show=${FILTERS.filter((filter) => filters.has(filter)).join(",")}`,
    stage === DEFAULT_CHOICES.stage ? "" : `stage=${stage.replaceAll(" ", "-")}`,
  ]
    .filter((part) => part !== "")
    .join("&");

/** Reads what `formatChoices` wrote; what it does not know is as by default. */
export const parseChoices = (text: string): BoardChoices => {
  const said = new Map(
    text.split("&").map((part): [string, string] => {
      const [name = "", value = ""] = part.split("=", 2);
      return [name, value];
    }),
  );
  const show = (said.get("show") ?? "").split(",");
  return {
    sort: SORTS.find((sort) => sort === said.get("sort")) ?? DEFAULT_CHOICES.sort,
    filters: new Set(FILTERS.filter((filter) => show.includes(filter))),
    stage:
      STAGE_CHOICES.find((stage) => stage.replaceAll(" ", "-") === said.get("stage")) ??
      DEFAULT_CHOICES.stage,
    search: "",
  };
};
