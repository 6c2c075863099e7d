import type { ReactNode } from "react";
import { historyLink } from "#client/pieces/links.ts";
import { OwnChanges } from "#client/pieces/own-changes.tsx";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor } from "#client/store/hooks.ts";
import { PageHeading, SectionHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { BandSection } from "./band-section.tsx";
import { Cautions } from "./cautions.tsx";
import { ConstantsSection } from "./constants-section.tsx";
import { DataSection } from "./data-section.tsx";
import { DisplaySection } from "./display-section.tsx";
import { EraseSection } from "./erase-section.tsx";
import { IssuesSection } from "./issues-section.tsx";
import { LeaveSection } from "./leave-section.tsx";
import { SeasonSection } from "./season-section.tsx";

/** What was done: on this device, and by everybody. */
const LookingBack = ({ leads }: { readonly leads: boolean }) => {
  const href = useHref();
  return (
    <section aria-labelledby="looking-back">
      <SectionHeading title={<span id="looking-back">Looking back</span>} />
      {leads ? (
        <p className="pb-2">
          <TextLink standing href={href(historyLink())}>
            History of the whole board
          </TextLink>
        </p>
      ) : null}
      <div className="max-w-2xl border-t border-line">
        <OwnChanges
          most={50}
          size="plain"
          nothing="Nothing yet. What you change here can be taken back from this list."
        />
        <IssuesSection />
      </div>
    </section>
  );
};

export interface SettingsScreenProps {
  /** What is kept on this device, and how safe it lies there. */
  readonly kept?: ReactNode;
}

/** Everything about a board and this device that is set seldom. */
export const SettingsScreen = ({ kept }: SettingsScreenProps) => {
  const leads = useAuthor().role === "leader";
  return (
    <div className="max-w-3xl">
      <PageHeading title="Settings" />
      <DisplaySection />
      {kept}
      <BandSection />
      <ConstantsSection />
      <DataSection />
      <LookingBack leads={leads} />
      {leads ? <SeasonSection /> : null}
      <Cautions />
      <LeaveSection />
      {leads ? <EraseSection /> : null}
    </div>
  );
};
