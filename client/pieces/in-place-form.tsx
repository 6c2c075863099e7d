import type { FormEvent, KeyboardEvent, ReactNode } from "react";
import { Button } from "#client/ui/button.tsx";

export interface InPlaceFormProps {
  /** What is changed; names the form. */
  readonly label: string;
  readonly onSave: () => void;
  /** Leaves everything as it was; Escape comes through here too. */
  readonly onLeave: () => void;
  readonly children: ReactNode;
}

/** The form that a row turns into: its fields, then save or leave. */
export const InPlaceForm = ({ label, onSave, onLeave, children }: InPlaceFormProps) => {
  const submit = (event: FormEvent) => {
    event.preventDefault();
    onSave();
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== "Escape") return;
    // A panel around it must not take this Escape for its own.
    event.stopPropagation();
    onLeave();
  };
  return (
    <form
      onSubmit={submit}
      onKeyDown={onKeyDown}
      aria-label={`Change: ${label}`}
      className="flex flex-col gap-4 border-l-2 border-control py-3 pl-3 no-print"
    >
      {children}
      <div className="flex flex-wrap gap-3">
        <Button tone="main" type="submit">
          Save
        </Button>
        <Button onClick={onLeave}>Leave it as it was</Button>
      </div>
    </form>
  );
};
