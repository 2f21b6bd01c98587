import type { TrialView } from "../../views.ts";

/** Why a test does not count yet, and what then. */
export function Pending({ doubts }: Pick<TrialView, "doubts">) {
  return (
    <p role="note" class="caution">
      It waits for a person to check it and does not count yet
      {doubts.length === 0 && "."}
      {doubts.map(({ code, message, other }, i) => (
        <>
          {i === 0 ? ": " : "; "}
          <a href={`/method#doubt-${code}`}>{other ? message.replace(` (${other})`, "") : message}</a>
          {other && (
            <>
              {" ("}
              <a href={`/trials/${other}`}>{other}</a>)
            </>
          )}
          {i === doubts.length - 1 && "."}
        </>
      ))}{" "}
      If something was mistyped, withdraw it and send it anew.
    </p>
  );
}
