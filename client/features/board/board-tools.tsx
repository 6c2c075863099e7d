import { Accordion } from "#client/ui/accordion.tsx";
import { FilterToggle } from "#client/ui/filter-toggle.tsx";
import { Select } from "#client/ui/select.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import {
  type BoardChoices,
  FILTERS,
  type Filter,
  SORTS,
  type Sort,
  STAGE_CHOICES,
  type StageChoice,
} from "#shared/selectors/board-choices.ts";
import { HereLine } from "./here-line.tsx";
import { LegendButton } from "./legend-button.tsx";
import { QuestionsLink } from "./questions-link.tsx";

export interface BoardToolsProps {
  readonly choices: BoardChoices;
  readonly onChoose: (choices: BoardChoices) => void;
  readonly hasGig: boolean;
  /** Few controls in sight, the rest folded. */
  readonly folded: boolean;
}

const SORT_WORDS: { readonly [S in Sort]: string } = {
  worst: "Worst first",
  title: "By title",
  repertoire: "Repertoire order",
  running: "Running order",
  stale: "Stale longest",
};

const FILTER_WORDS: { readonly [F in Filter]: string } = {
  gig: "This gig",
  "not-ready": "Not ready",
  mine: "Mine",
  stale: "Stale",
  "no-ending": "No ending",
};

const STAGE_WORDS: { readonly [S in StageChoice]: string } = {
  working: "All but resting",
  candidate: "Candidates",
  learning: "Learning",
  "in the book": "In the book",
  resting: "Resting",
  all: "Every stage",
};

const Search = ({ choices, onChoose }: BoardToolsProps) => (
  <TextField
    type="search"
    label="Find a song"
    hideLabel
    placeholder="Find a song"
    value={choices.search}
    onChange={(search) => onChoose({ ...choices, search })}
    className="w-44 flex-1 laptop:flex-none"
  />
);

const Filters = ({ choices, onChoose, hasGig }: BoardToolsProps) => (
  // biome-ignore lint/a11y/useSemanticElements: toggles are no form fields
  <div role="group" aria-label="Show only" className="flex flex-wrap">
    {FILTERS.filter((filter) => hasGig || filter !== "gig").map((filter) => (
      <FilterToggle
        key={filter}
        pressed={choices.filters.has(filter)}
        onChange={(on) => {
          const filters = new Set(choices.filters);
          if (on) filters.add(filter);
          else filters.delete(filter);
          onChoose({ ...choices, filters });
        }}
      >
        {FILTER_WORDS[filter]}
      </FilterToggle>
    ))}
  </div>
);

const Selects = ({ choices, onChoose, hasGig }: BoardToolsProps) => (
  <>
    <Select
      label="Order"
      hideLabel
      value={choices.sort}
      options={SORTS.filter((sort) => hasGig || sort !== "running").map((sort) => ({
        value: sort,
        label: SORT_WORDS[sort],
      }))}
      onChange={(sort) => onChoose({ ...choices, sort })}
      className="w-40"
    />
    <Select
      label="Stage"
      hideLabel
      value={choices.stage}
      options={STAGE_CHOICES.map((stage) => ({ value: stage, label: STAGE_WORDS[stage] }))}
      onChange={(stage) => onChoose({ ...choices, stage })}
      className="w-40"
    />
  </>
);

/** Search, order, filters and the legend: one line on a laptop; on a phone the rarer ones fold. */
export const BoardTools = (props: BoardToolsProps) => {
  if (!props.folded) {
    return (
      <div className="no-print flex flex-wrap items-center gap-x-4 gap-y-1">
        <Search {...props} />
        <Filters {...props} />
        <Selects {...props} />
        <span className="ml-auto flex items-center gap-4">
          <HereLine />
          <QuestionsLink />
          <LegendButton />
        </span>
      </div>
    );
  }
  const { choices } = props;
  const narrowed = choices.filters.size + (choices.stage === "working" ? 0 : 1);
  return (
    <div className="no-print">
      <QuestionsLink />
      <div className="flex items-center gap-4">
        <Search {...props} />
        <LegendButton />
      </div>
      <HereLine />
      <Accordion
        summary={`${SORT_WORDS[choices.sort]}${narrowed > 0 ? `, ${narrowed} chosen` : ""}: order and filters`}
      >
        <Filters {...props} />
        <div className="flex flex-wrap gap-4 pb-3">
          <Selects {...props} />
        </div>
      </Accordion>
    </div>
  );
};
