import { Accordion } from "#client/ui/accordion.tsx";
import { Choice } from "#client/ui/choice.tsx";
import { keyLines, type Pedal } from "./room-keys.ts";

export interface KeysHelpProps {
  readonly pedal: Pedal;
  readonly onChange: (pedal: Pedal) => void;
}

/** What the keys do, and what a pedal with two buttons does. */
export const KeysHelp = ({ pedal, onChange }: KeysHelpProps) => (
  <Accordion
    size="room"
    className="no-print"
    summary={
      <>
        Keys and pedal{" "}
        <span className="text-quiet">
          {pedal === "off" ? "off" : pedal === "songs" ? "next song" : "next detail"}
        </span>
      </>
    }
  >
    <div className="flex flex-col gap-3 pb-4">
      <Choice
        label="A pedal that sends page down and page up"
        size="room"
        value={pedal}
        options={[
          { value: "songs", label: "next and previous song" },
          { value: "details", label: "next detail, and press it" },
          { value: "off", label: "keys off" },
        ]}
        onChange={onChange}
      />
      {pedal === "off" ? (
        <p className="text-quiet">Keys do only what the browser does with them.</p>
      ) : (
        <dl className="grid grid-cols-[auto_1fr] gap-x-4">
          {keyLines(pedal).map(([key, does]) => (
            <div key={key} className="contents">
              <dt className="font-semibold">{key}</dt>
              <dd>{does}</dd>
            </div>
          ))}
        </dl>
      )}
    </div>
  </Accordion>
);
