import { bandPhrase } from "../figures.ts";
import type { FlowUnit } from "../reader.ts";

/** Asks for the reader's room, and leads to what cleans it. */
export function InMyRoom({ band, flow, isUnpaired }: { band: string; flow: FlowUnit; isUnpaired: boolean }) {
  return (
    <>
      <h2>In my room</h2>
      <p>
        What this and others would do in a room of yours, for {bandPhrase(band)}, and how likely they are to do what you
        ask.
      </p>
      <form method="get" action="/room">
        <input type="hidden" name="band" value={band} />
        {isUnpaired && <input type="hidden" name="unpaired" value="include" />}
        <div class="fields">
          <div class="field">
            <label for="f-volume">Volume of the room</label>
            <span class="with-unit">
              <input id="f-volume" name="volume" inputmode="decimal" autocomplete="off" required />
              <select name="in" aria-label="Unit of the volume">
                <option value="m">m³</option>
                <option value="ft" selected={flow !== "m3/h"}>
                  ft³
                </option>
              </select>
            </span>
          </div>
          <div class="field">
            <button type="submit">See what it takes</button>
          </div>
        </div>
      </form>
    </>
  );
}
