import type { BasisOut, ByRoom, EntryOut } from "../../wire/entry.ts";
import { AS_TABLE } from "../as-table.ts";
import { ForestPlot } from "../charts/forest-plot.tsx";
import { counted } from "../counts.ts";
import { percentOf } from "../percent.ts";
import { Quantity } from "../quantity.tsx";
import { paidWords, WhoPaid } from "../who-paid.tsx";

type Room = EntryOut["by_room"][number];

/** The weightiest rooms are drawn; more would be no picture any more. All stand in the table. */
const MOST_DRAWN = 40;

/** What each room says beside what is made of all: drawn, as a table, and which volumes were corrected. */
export function Rooms({ entry, basis }: { readonly entry: EntryOut; readonly basis: BasisOut }) {
  const { by_room: rooms } = entry;
  if (rooms.length === 0 || basis.cadr === null || basis.prediction === null) return null;
  const drawn = rooms.length > MOST_DRAWN ? rooms.toSorted((a, b) => b.weight - a.weight).slice(0, MOST_DRAWN) : rooms;
  return (
    <>
      <h3>Room by room</h3>
      <ForestPlot
        id={`rooms-${entry.id}`}
        rows={drawn.map((room) => ({
          ...room.cadr,
          name: roomName(room),
          about: aboutRoom(room),
          weight: room.weight,
        }))}
        pooled={basis.cadr}
        prediction={basis.prediction}
        unit={basis.cadr.unit}
        caption={
          <>
            Lines are 95&nbsp;% intervals of what each room found by itself; a larger square weighs more. The diamond is
            the pooled figure, the line below it where another room and counter are expected.
            {drawn.length < rooms.length && ` The ${MOST_DRAWN} weightiest of ${rooms.length} rooms are drawn.`}
          </>
        }
        table={<RoomTable rooms={rooms} />}
      />
      <Corrections rooms={rooms} />
    </>
  );
}

/** By whom, and in which of their rooms. */
function roomName({ room, submitter }: Pick<ByRoom, "room" | "submitter">): string {
  return `${submitter.handle ?? submitter.id}: ${room.label ?? room.id}`;
}

function aboutRoom({ trials, paired, interest }: Room): string {
  const kinds = Object.keys(interest).length;
  const paid = kinds > 1 ? "who paid differs, see the table" : paidWords(interest);
  return `${counted(trials.length, "test")}${pairedWords(paired, trials.length)}; ${paid}`;
}

function pairedWords(paired: number, trials: number): string {
  if (paired === trials) return ", paired";
  return paired === 0 ? ", unpaired" : `, ${paired} paired`;
}

function RoomTable({ rooms }: { readonly rooms: readonly Room[] }) {
  return (
    <table class="stacks" {...AS_TABLE.table}>
      <thead>
        <tr {...AS_TABLE.row}>
          <th {...AS_TABLE.head}>Tester and room</th>
          <th {...AS_TABLE.head}>Clean air</th>
          <th {...AS_TABLE.head}>Weight</th>
          <th {...AS_TABLE.head}>Tests</th>
          <th {...AS_TABLE.head}>Who paid</th>
        </tr>
      </thead>
      <tbody>
        {rooms.map((room) => (
          <tr {...AS_TABLE.row}>
            <th {...AS_TABLE.rowHead}>
              <bdi>{room.submitter.handle ?? room.submitter.id}</bdi>: <bdi>{room.room.label ?? room.room.id}</bdi>
            </th>
            <td {...AS_TABLE.cell} data-head="Clean air">
              <Quantity of={room.cadr} />
            </td>
            <td {...AS_TABLE.cell} data-head="Weight">
              {percentOf(room.weight)}
            </td>
            <td {...AS_TABLE.cell} data-head="Tests">
              {room.trials.map((trial, i) => (
                <>
                  {i > 0 && ", "}
                  <a href={`/trials/${trial}`}>{trial}</a>
                </>
              ))}
              {pairedWords(room.paired, room.trials.length)}
            </td>
            <td {...AS_TABLE.cell} data-head="Who paid">
              <WhoPaid interest={room.interest} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Corrections({ rooms }: { readonly rooms: readonly Room[] }) {
  const corrected = rooms.filter((room) => room.corrected !== null);
  if (corrected.length === 0) return null;
  return (
    <ul>
      {corrected.map((room) => (
        <li>
          The volume of <bdi>{roomName(room)}</bdi> was corrected on {room.corrected!.at.slice(0, 10)}
          {room.corrected!.reason && (
            <>
              : <bdi>{room.corrected!.reason}</bdi>
            </>
          )}
          . Figures by room and pooled ones use the corrected volume; a test’s own result keeps the one it was made
          with. <a href={`/v1/rooms/${room.room.id}`}>Its volumes, as data</a>
        </li>
      ))}
    </ul>
  );
}
