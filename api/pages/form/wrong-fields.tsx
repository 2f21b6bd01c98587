import type { Filled } from "./fields.tsx";

interface Props {
  readonly asked: Filled;
  /** What the fields are called. */
  readonly names: Readonly<Record<string, string>>;
  /** What does not come about because of them. */
  readonly lead: string;
}

/** What is wrong, said at once: what was typed, what is meant, and the way to each field. */
export function WrongFields({ asked: { texts, complaints }, names, lead }: Props) {
  const wrong = Object.entries(complaints);
  if (wrong.length === 0) return null;
  return (
    <div role="alert">
      <p class="error">{lead}</p>
      <ul>
        {wrong.map(([name, words]) => (
          <li class="error">
            {names[name] ? <a href={`#f-${name}`}>{names[name]}</a> : name}:{" "}
            {texts[name] && (
              <>
                <bdi>{texts[name].slice(0, MOST_SHOWN)}</bdi>.{" "}
              </>
            )}
            {words}
          </li>
        ))}
      </ul>
    </div>
  );
}

/** Enough of what was typed to know it again. */
const MOST_SHOWN = 60;
