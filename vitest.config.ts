import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    testTimeout: 300_000,
    hookTimeout: 300_000,
    maxWorkers: 2,
    // One worker goes from file to file, warm: no module of ours keeps state below hosts/ (architecture.test), and a fifth of the time went into starting anew.
    isolate: false,
    execArgv: ['--max-semi-space-size=64', '--interrupt-budget=400000'],
  },
})
