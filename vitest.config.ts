import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["test/**/*.test.ts"],
    exclude: ["test/campaigns/**"],
    globalSetup: "test/support/bundle-first.ts",
    testTimeout: 30_000,
    hookTimeout: 60_000,
    maxWorkers: 2, // the suite is to fit two cores; the default would leave one of them idle
  },
});
