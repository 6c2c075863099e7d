import { useState } from "react";
import { Confirm } from "#client/pieces/confirm.tsx";
import { RecoveryCode } from "#client/pieces/recovery-code.tsx";
import { useBandAccess } from "#client/store/band-access.ts";
import { useBand, useBoardId } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";

/** A new recovery code; the one before is void. For leaders. */
export const RecoverySection = () => {
  const access = useBandAccess();
  const board = useBoardId();
  const { name } = useBand();
  const [asking, setAsking] = useState(false);
  const [code, setCode] = useState("");
  const make = async () => {
    const answer = await access.newRecoveryCode(board);
    if (!answer.ok) return answer;
    setCode(answer.value);
    setAsking(false);
    return answer;
  };
  return (
    <section aria-labelledby="recovery">
      <SectionHeading title={<span id="recovery">If every device is lost</span>} />
      <p className="max-w-2xl text-quiet">
        A recovery code lets a leader in again when no leading device is left. A band that is started here is
        shown its code once. If you cannot find it, or there never was one, make a new one; the one before is
        void then.
      </p>
      {code === "" ? (
        <Button className="mt-3" onClick={() => setAsking(true)}>
          Make a new recovery code
        </Button>
      ) : (
        <div className="mt-4">
          <RecoveryCode band={name} code={code} onWritten={() => setCode("")} />
        </div>
      )}
      {asking ? (
        <Confirm
          title="Make a new recovery code?"
          yes="Make it"
          danger={false}
          onYes={make}
          onClose={() => setAsking(false)}
        >
          <p>A code made before is void from then on. Have something to write with.</p>
        </Confirm>
      ) : null}
    </section>
  );
};
