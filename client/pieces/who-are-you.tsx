import type { ReactNode } from "react";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { peopleLink } from "./links.ts";
import { useHref } from "./use-href.ts";

/** Stands on a screen of one's own while the device does not know whose it is. `children`: what will stand there. */
export const WhoAreYou = ({ children }: { readonly children: ReactNode }) => {
  const href = useHref();
  return (
    <EmptyState
      title="Who are you?"
      action={
        <TextLink standing href={href(peopleLink())}>
          Pick your name
        </TextLink>
      }
    >
      This device does not know whose it is. Once it does, {children}
    </EmptyState>
  );
};
