/** Where somebody is led who just published a test: its page, with a note on what the key is for. */
export function publishedAt(id: string): string {
  return `/trials/${encodeURIComponent(id)}?published=yes`;
}
