import { useState } from "react";
import { InPlaceForm } from "#client/pieces/in-place-form.tsx";
import { useAct } from "#client/pieces/use-act.ts";
import { VoiceFields } from "#client/pieces/voice-fields.tsx";
import { Button } from "#client/ui/button.tsx";
import type { Person } from "#shared/board/band.ts";
import { revisePerson } from "#shared/commands/add-person.ts";
import { readVoice, voiceText, voiceWords } from "#shared/selectors/voice-draft.ts";

/** What a singer can sing, and the form for it where this device may change it. */
export const VoiceEntry = ({ person, may }: { readonly person: Person; readonly may: boolean }) => {
  const [editing, setEditing] = useState(false);
  const { name, voice } = person;
  if (editing) return <VoiceForm person={person} onDone={() => setEditing(false)} />;
  return (
    <div>
      <p>
        {voice === null ? `What ${name} can sing is not said yet.` : `${name} sings ${voiceWords(voice)}.`}
      </p>
      {may ? (
        <Button tone="quiet" className="no-print" onClick={() => setEditing(true)}>
          {voice === null ? "Say what they can sing" : "Change what they can sing"}
        </Button>
      ) : voice === null ? (
        <p className="caption">The singer enters it on their own device, or a leader does.</p>
      ) : null}
    </div>
  );
};

const VoiceForm = ({ person, onDone }: { readonly person: Person; readonly onDone: () => void }) => {
  const act = useAct();
  const [text, setText] = useState(() => voiceText(person.voice));
  const [tried, setTried] = useState(false);
  const reading = readVoice(text);
  const save = () => {
    setTried(true);
    if (!reading.ok) return;
    const args = { person: person.id, voice: reading.voice };
    if (act(revisePerson, args, `What ${person.name} can sing`)) onDone();
  };
  return (
    <InPlaceForm label={`what ${person.name} can sing`} onSave={save} onLeave={onDone}>
      <VoiceFields value={text} onChange={setText} reading={tried ? reading : null} />
    </InPlaceForm>
  );
};
