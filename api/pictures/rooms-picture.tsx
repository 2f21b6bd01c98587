import type { Connection } from "../../db/database.ts";
import { listPinnedMembers } from "../../db/pinned-members.ts";
import { StoreError } from "../../db/store-error.ts";
import { sizeOf } from "../pages/charts/chart.tsx";
import { FOREST_TITLE, ForestDrawing, forestHeight, forestWords } from "../pages/charts/forest-plot.tsx";
import { forestRows, undrawnWords, weightiest } from "../pages/configuration/forest-rows.ts";
import { testWords } from "../pages/counts.ts";
import { poolByRoom } from "../pool-by-room.ts";
import type { PinnedEntry, PinnedResult } from "../wire/pinned.ts";
import { plot, wordsPart } from "./plot.tsx";
import type { Theme } from "./themes.ts";

/** What each room said when a pinned figure was pooled from them, the figure, and where another room was expected. */
export async function roomsPicture(
  connection: Connection,
  result: PinnedResult,
  pinned: PinnedEntry,
  theme: Theme,
): Promise<string> {
  const { cadr, prediction, spread, seq } = pinned;
  if (prediction === null)
    throw new StoreError("not-found", "Of this figure no prediction was kept, so no plot is drawn.");
  const named = pinned.members.map(
    ({ trial, revision, method_version: methodVersion, room_revision: roomRevision }) => {
      return { trial, revision, methodVersion, roomRevision };
    },
  );
  const members = await listPinnedMembers(connection, pinned.band, named);
  const trials = members.map(({ trial, roomLabel, handle }) => ({ id: trial, roomLabel, handle }));
  const rooms = poolByRoom(members, { spread, trials, corrections: new Map(), publicUrl: "", unit: cadr.unit });
  const drawn = weightiest(rooms);
  const rows = forestRows(drawn);
  const size = sizeOf("wide", forestHeight("wide", rows.length), {});
  const unit = cadr.unit;
  const shown = { rows, pooled: cadr, unit };
  return plot({
    result,
    title: FOREST_TITLE.toLowerCase(),
    description: forestWords(shown),
    from: `${testWords(pinned)}, figure ${seq}, method ${pinned.method_version}; the interval is about the mean between laboratories`,
    parts: [
      {
        height: size.height,
        drawn: <ForestDrawing size={size} {...shown} prediction={prediction} />,
      },
      wordsPart(
        `Lines are 95 % intervals of what each room found by itself; a larger square weighs more. The diamond is the pooled figure, the line below it where another room and counter are expected.${undrawnWords(drawn.length, rooms.length)}`,
      ),
    ],
    theme,
  });
}
