import { EmptyState } from "#client/ui/empty-state.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";

/** An address that leads nowhere. */
export const NotHere = () => (
  <>
    <PageHeading title="Nothing here" />
    <EmptyState
      title="This address leads nowhere."
      action={
        <TextLink standing href="#/">
          Go to the start
        </TextLink>
      }
    >
      The link may be cut short. Ask for it again, or start from the beginning.
    </EmptyState>
  </>
);
