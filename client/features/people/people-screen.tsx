import { RemovedList } from "#client/pieces/removed-list.tsx";
import { useAuthor } from "#client/store/hooks.ts";
import { PageHeading, SectionHeading } from "#client/ui/page-heading.tsx";
import { restoreChair, restorePerson } from "#shared/commands/remove-record.ts";
import { AwaySection } from "./away-section.tsx";
import { ChairsSection } from "./chairs-section.tsx";
import { DevicesSection } from "./devices-section.tsx";
import { MembersSection } from "./members-section.tsx";
import { RecoverySection } from "./recovery-section.tsx";
import { ShareLinks } from "./share-links.tsx";
import { ThisDevice } from "./this-device.tsx";

/** Who plays what, whose device this is, and the ways into the board. */
export const PeopleScreen = () => {
  const { role } = useAuthor();
  const looking = role === "guest";
  return (
    <div className="max-w-4xl">
      <PageHeading title="People and chairs" />
      <ChairsSection />
      <MembersSection />
      <AwaySection />
      <p className="caption mt-4 max-w-2xl">
        A member’s score is shown to that member and to the leader only. That is courtesy, not secrecy: every
        status is part of the board that all devices hold.
      </p>
      {looking ? null : (
        <>
          <RemovedList
            of="chairs"
            restore={restoreChair}
            title={(count) => (count === 1 ? "1 chair was removed" : `${count} chairs were removed`)}
          />
          <RemovedList
            of="people"
            restore={restorePerson}
            title={(count) => (count === 1 ? "1 person was removed" : `${count} people were removed`)}
          />
        </>
      )}
      <ThisDevice />
      {looking ? null : (
        <>
          <DevicesSection />
          <section aria-labelledby="share">
            <SectionHeading title={<span id="share">Let others in</span>} />
            <ShareLinks />
          </section>
        </>
      )}
      {role === "leader" ? <RecoverySection /> : null}
    </div>
  );
};
