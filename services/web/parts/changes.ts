/** One value that others want to hear about. */
export interface Changes<Value> {
  tell(value: Value): void;
  /** Calls at every change; gives what stops that. */
  hear(listener: (value: Value) => void): () => void;
}

export function changes<Value>(): Changes<Value> {
  const listeners = new Set<(value: Value) => void>();
  return {
    tell: (value) => {
      for (const listener of [...listeners]) listener(value);
    },
    hear: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
