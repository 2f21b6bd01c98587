/** Where a test of a configuration at a setting is added. */
export function submitAddress(configuration: string, setting = ""): string {
  return `/submit?${new URLSearchParams(setting === "" ? { configuration } : { configuration, setting })}`;
}
