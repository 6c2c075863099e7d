import { EmptyState } from "#client/ui/empty-state.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { gigsLink } from "./links.ts";
import { useHref } from "./use-href.ts";

/** A screen of a gig that is not on the board; `title` is the screen's own. */
export const NoGig = ({ title }: { readonly title: string }) => {
  const href = useHref();
  return (
    <>
      <PageHeading title={title} />
      <EmptyState
        title="This gig is not on the board"
        action={
          <TextLink standing href={href(gigsLink())}>
            All gigs
          </TextLink>
        }
      >
        It was called off, or has not reached this device yet.
      </EmptyState>
    </>
  );
};
