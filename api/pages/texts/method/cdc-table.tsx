import { CDC_TABLE, cdcRowFor } from "../../../../analysis/sizing/cdc-table.ts";

const AIR_CHANGES = [2, 4, 6, 8, 10, 12, 15, 20, 50];

/** How long until the air is clear, as printed. */
export function CdcTable() {
  const rows = AIR_CHANGES.flatMap((perHour) => cdcRowFor(perHour) ?? []);
  return (
    <>
      <table class="narrow-table">
        <caption>Minutes until so much is gone, mixed air, no source</caption>
        <thead>
          <tr>
            <th scope="col">Air changes an hour</th>
            <th scope="col" class="number">
              99&nbsp;%, min
            </th>
            <th scope="col" class="number">
              99.9&nbsp;%, min
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ airChangesPerH, minutesTo99, minutesTo999 }) => (
            <tr>
              <th scope="row">{airChangesPerH}</th>
              <td class="number">{minutesTo99}</td>
              <td class="number">{minutesTo999}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="quiet">
        <a href={CDC_TABLE.url}>{CDC_TABLE.name}</a>, in whole minutes as printed there, after MMWR 1994;43(RR-13).
      </p>
    </>
  );
}
