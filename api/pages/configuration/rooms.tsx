import type { BasisOut, EntryOut } from "../../wire/entry.ts";
import { AS_TABLE } from "../as-table.ts";
import { ForestPlot } from "../charts/forest-plot.tsx";
import { percentOf } from "../percent.ts";
import { Quantity } from "../quantity.tsx";
import { WhoPaid } from "../who-paid.tsx";
import { forestRows, pairedWords, roomName, undrawnWords, weightiest } from "./forest-rows.ts";

type Room = EntryOut["by_room"][number];

/** What each room says beside what is made of all: drawn, as a table, and which volumes were corrected. */
export function Rooms({ entry, basis }: { readonly entry: EntryOut; readonly basis: BasisOut }) {
  const { by_room: rooms } = entry;
  if (rooms.length === 0 || basis.cadr === null || basis.prediction === null) return null;
  const drawn = weightiest(rooms);
  return (
    <>
      <h3>Room by room</h3>
      <ForestPlot
        id={`rooms-${entry.id}`}
        rows={forestRows(drawn)}
        pooled={basis.cadr}
        prediction={basis.prediction}
        unit={basis.cadr.unit}
        caption={
          <>
            Lines are 95&nbsp;% intervals of what each room found by itself; a larger square weighs more. The diamond is
            the pooled figure, the line below it where another room and counter are expected.
            {undrawnWords(drawn.length, rooms.length)}
          </>
        }
        table={<RoomTable rooms={rooms} />}
      />
      <Corrections rooms={rooms} />
    </>
  );
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
