import { allowedHours } from "../../../../analysis/sizing/hearing-limit.ts";

const LEVELS_DB = [85, 88, 91, 94, 97, 100];

/** How long an ear may be in how much noise. */
export function NioshTable() {
  return (
    <table class="narrow-table">
      <caption>Longest time a day, NIOSH 1998 (85 dB(A) for 8 hours, halved for each 3 dB)</caption>
      <thead>
        <tr>
          <th scope="col">dB(A) at the ear</th>
          <th scope="col">Longest time a day</th>
        </tr>
      </thead>
      <tbody>
        {LEVELS_DB.map((level) => (
          <tr>
            <th scope="row">{level}</th>
            <td>{timeWords(allowedHours(level))}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function timeWords(hours: number): string {
  return hours >= 1 ? `${hours}\u00a0h` : `${60 * hours}\u00a0min`;
}
