/** Names of the two ways between page and shell. Without Electron, because preload and main share them. */
export const CHANNELS = { call: 'handsclear:call', event: 'handsclear:event' } as const;
