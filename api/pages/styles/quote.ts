/** A text to copy, and its button. */
export const QUOTE = `
.card { width: 100%; max-width: 37.5rem; height: auto; border: 1px solid var(--line); }
.copied { margin-block: 0.6rem; max-width: 52rem; }
.copied textarea { font-size: 0.9rem; resize: vertical; field-sizing: content; }
.copied button { margin-top: 0.3rem; }
`;
