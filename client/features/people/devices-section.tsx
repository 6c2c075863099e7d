import { useCallback, useState } from "react";
import { AskedView } from "#client/pieces/asked-view.tsx";
import { type Asked, useAsked } from "#client/pieces/use-asked.ts";
import { useBandAccess } from "#client/store/band-access.ts";
import { useAuthor, useBoardId, usePeople } from "#client/store/hooks.ts";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { useToast } from "#client/ui/toast.tsx";
import { ok } from "#shared/lib/result.ts";
import type { ChangeDevice, DeviceInfo, Link } from "#shared/protocol/api.ts";
import { deviceName, devicesByPerson } from "#shared/selectors/device-words.ts";
import { AddOwnDevice } from "./add-own-device.tsx";
import { ChangeRole, RemoveDevice, RenameDevice } from "./device-questions.tsx";
import { type DeviceAct, DeviceRow } from "./device-row.tsx";

/** Somebody may come in while one looks at the list. */
const FRESH_MS = 15_000;

interface Lists {
  readonly devices: readonly DeviceInfo[];
  readonly links: readonly Link[];
}

/** The devices one may see and, for leaders, the links they came in by. */
const useLists = (leads: boolean): Asked<Lists> => {
  const access = useBandAccess();
  const board = useBoardId();
  return useAsked(
    useCallback(async () => {
      const [devices, links] = await Promise.all([
        access.devices(board),
        leads ? access.links(board) : ok([]),
      ]);
      // Where a device came in is a help, no need.
      return devices.ok ? ok({ devices: devices.value, links: links.ok ? links.value : [] }) : devices;
    }, [access, board, leads]),
    FRESH_MS,
  );
};

interface Asking {
  readonly device: DeviceInfo;
  readonly whose: string;
  readonly act: DeviceAct;
}

const Question = ({
  asking,
  onDone,
  onClose,
}: {
  readonly asking: Asking;
  readonly onDone: () => void;
  readonly onClose: () => void;
}) => {
  const access = useBandAccess();
  const board = useBoardId();
  const toast = useToast();
  const { device, act } = asking;
  const name = deviceName(device);
  const change = (changes: ChangeDevice, said: string) => async () => {
    const answer = await access.changeDevice(board, device.id, changes);
    if (!answer.ok) return answer;
    toast({ text: said });
    onDone();
    return answer;
  };
  const remove = async () => {
    const answer = await access.removeDevice(board, device.id);
    if (!answer.ok) return answer;
    toast({ text: `${name} is removed and cut off.` });
    onDone();
    return answer;
  };
  const props = { ...asking, onClose };
  if (act === "confirm") return null;
  if (act === "rename")
    return (
      <RenameDevice {...props} onName={(next) => change({ name: next }, `It is called ${next} now.`)()} />
    );
  if (act === "remove") return <RemoveDevice {...props} onYes={remove} />;
  return (
    <ChangeRole {...props} role={act} onYes={change({ role: act }, `${name} has a new say on the board.`)} />
  );
};

const DeviceList = ({ lists, again }: { readonly lists: Lists; readonly again: () => Promise<void> }) => {
  const access = useBandAccess();
  const board = useBoardId();
  const people = usePeople();
  const toast = useToast();
  const { role, member } = useAuthor();
  const [asking, setAsking] = useState<Asking | null>(null);
  const leads = role === "leader";
  const groups = devicesByPerson(lists.devices, people);
  const act = async (device: DeviceInfo, whose: string, what: DeviceAct) => {
    if (what !== "confirm") return setAsking({ device, whose, act: what });
    const answer = await access.changeDevice(board, device.id, { confirmed: true });
    toast({ text: answer.ok ? `${deviceName(device)} is confirmed as ${whose}’s.` : answer.error.message });
    await again();
  };
  const done = () => {
    setAsking(null);
    void again();
  };
  return (
    <>
      {groups.map(({ member: whoseId, name, devices }) => (
        <section key={whoseId ?? "nobody"} aria-label={name} className="mt-4 first:mt-0">
          <h3 className="caption font-semibold">
            {whoseId !== null && whoseId === member ? `${name} (you)` : name}
          </h3>
          <ul className="border-t border-line">
            {devices.map((device) => (
              <DeviceRow
                key={device.id}
                device={device}
                whose={whoseId === null ? "nobody's yet" : name}
                links={lists.links}
                leads={leads}
                onAct={(what) => void act(device, name, what)}
              />
            ))}
          </ul>
        </section>
      ))}
      {asking === null ? null : <Question asking={asking} onDone={done} onClose={() => setAsking(null)} />}
    </>
  );
};

const WHY_CONFIRM =
  "A device that came in by a link for everybody carries whichever name was picked on it. Confirm it when you know whose it is; until then it sees nothing that is private to that person.";

/** Which devices are on the board. A leader sees all of them, everybody else their own. */
export const DevicesSection = () => {
  const { role, member } = useAuthor();
  const leads = role === "leader";
  const asked = useLists(leads);
  const count = asked.answer?.ok ? asked.answer.value.devices.length : null;
  return (
    <section aria-labelledby="devices">
      <SectionHeading
        title={<span id="devices">{leads ? "Devices" : "Your devices"}</span>}
        aside={count === null ? null : count}
      />
      <AskedView asked={asked}>
        {(lists) =>
          lists.devices.length === 0 ? (
            <p className="text-quiet">Say first whose device this is; then your devices stand here.</p>
          ) : (
            <>
              <DeviceList lists={lists} again={async () => void (await asked.again())} />
              {lists.devices.some(({ memberId, confirmed }) => memberId !== null && !confirmed) ? (
                <p className="caption mt-3 max-w-2xl">{WHY_CONFIRM}</p>
              ) : null}
            </>
          )
        }
      </AskedView>
      {member === null ? null : <AddOwnDevice member={member} onMade={() => void asked.again()} />}
    </section>
  );
};
