/** Loaded before anything else: where office.js did not come through, the names that the rest needs are still there. */
const missing = globalThis as unknown as { CustomFunctions?: unknown; Office?: unknown }

class PlainError extends Error {
  constructor(
    readonly code: string,
    message = '',
  ) {
    super(message)
  }
}

missing.CustomFunctions ??= {
  associate: () => undefined,
  Error: PlainError,
  ErrorCode: { invalidValue: '#VALUE!', notAvailable: '#N/A' },
}
missing.Office ??= { onReady: async (callback?: (info: { host: null }) => void) => callback?.({ host: null }), isMissing: true }

/** True when office.js itself is not there. */
export const isOfficeMissing = (): boolean => (missing.Office as { isMissing?: boolean }).isMissing === true
