import { OwnChanges } from "#client/pieces/own-changes.tsx";
import { PageHeading, SectionHeading } from "#client/ui/page-heading.tsx";
import { BandSection } from "./band-section.tsx";
import { Cautions } from "./cautions.tsx";
import { ConstantsSection } from "./constants-section.tsx";
import { DataSection } from "./data-section.tsx";
import { DisplaySection } from "./display-section.tsx";
import { IssuesSection } from "./issues-section.tsx";
import { LeaveSection } from "./leave-section.tsx";

/** Everything about a board and this device that is set seldom. */
export const SettingsScreen = () => (
  <div className="max-w-3xl">
    <PageHeading title="Settings" />
    <DisplaySection />
    <BandSection />
    <ConstantsSection />
    <DataSection />
    <section aria-labelledby="looking-back">
      <SectionHeading title={<span id="looking-back">Looking back</span>} />
      <div className="max-w-2xl border-t border-line">
        <OwnChanges
          most={50}
          size="plain"
          nothing="Nothing yet. What you change here can be taken back from this list."
        />
        <IssuesSection />
      </div>
    </section>
    <Cautions />
    <LeaveSection />
  </div>
);
