import { CastingFields } from "#client/pieces/casting-fields.tsx";
import { AddDetail } from "#client/pieces/detail/add-detail.tsx";
import { boardLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor } from "#client/store/hooks.ts";
import { useStand } from "#client/store/presence-hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { PartDetails } from "./part-details.tsx";
import { PartFacts } from "./part-facts.tsx";
import { PartItself } from "./part-itself.tsx";
import { type OpenPart, usePart, usePartTitle } from "./use-part.ts";

export interface PartPanelProps {
  readonly song: string;
  readonly chair: string;
  /** The detail to point out. */
  readonly card?: string | undefined;
  /** A page needs its own heading; a sheet has one (`usePartTitle`). */
  readonly page?: boolean;
}

/** One part, a cell of the board: the part itself, its details with everybody's status, and a line to add one. */
export const PartPanel = ({ song, chair, card, page = false }: PartPanelProps) => {
  const open = usePart(song, chair);
  const { title, above } = usePartTitle(song, chair);
  const href = useHref();
  useStand("part", song, chair);
  if (open === null) {
    return (
      <>
        {page ? <PageHeading title={title} /> : null}
        <EmptyState
          title="This part is gone"
          action={
            <TextLink standing href={href(boardLink())}>
              Back to the board
            </TextLink>
          }
        >
          Its song or its chair was taken off the board. What was said about it is kept and comes back with
          it.
        </EmptyState>
      </>
    );
  }
  // A new part starts afresh: its held list, its drafts and its folds are its own.
  return (
    <div key={`${song}/${chair}`} className={page ? "max-w-2xl" : undefined}>
      {page ? <PageHeading title={title} above={above} /> : null}
      <PartFacts {...open} />
      {open.part.state === "tacet" ? <Tacet {...open} /> : <Playing {...open} card={card} />}
      <Casting {...open} />
    </div>
  );
};

const Tacet = ({ part }: OpenPart) => (
  <p className="py-6">
    <span className="expression text-title">tacet</span>
    <span className="caption block">{part.chair.name} has nothing to play in this song.</span>
  </p>
);

const Playing = ({ view, part, card }: OpenPart & { readonly card: string | undefined }) => (
  <>
    {part.state === "uncovered" ? (
      <p className="border-b border-line py-3">
        Nobody is on {part.chair.name}. The song cannot be ready while the chair is empty.
      </p>
    ) : null}
    {part.itself === null ? null : <PartItself view={view} part={part} itself={part.itself} />}
    <section aria-labelledby="part-details" className="pt-4">
      <h2 id="part-details" className="font-semibold">
        Details
      </h2>
      {part.state === "unknown" ? (
        <p className="caption">
          Nobody has said anything yet. What would go wrong without a word about it? Endings, stops and first
          entries are a good start.
        </p>
      ) : null}
      <PartDetails song={view.file} details={part.details} card={card} />
      <div className="pt-4">
        <AddDetail song={view.file} chairs={[part.chair.id]} label="Add a detail" />
      </div>
    </section>
  </>
);

const Casting = ({ view, part }: OpenPart) => {
  const { role } = useAuthor();
  if (role === "guest") return null;
  return (
    <Accordion summary="Who plays it, and whether" className="mt-4 no-print">
      <CastingFields song={view.file} chair={part.chair.id} />
    </Accordion>
  );
};
