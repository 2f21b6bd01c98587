/** A text to copy, and its button. */
export const QUOTE = `
.card { width: 100%; max-width: 37.5rem; height: auto; border: 1px solid var(--line); }
.copied { margin-block: 0.6rem; }
.copied textarea { width: 100%; box-sizing: border-box; font-size: 0.9rem; resize: vertical; }
.copied button { margin-top: 0.3rem; }
`;
