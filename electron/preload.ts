/** Runs before the page, in its sandbox, and gives it the methods of the contract by name: no more than that, and nothing of Electron itself. */
import { contextBridge, ipcRenderer } from 'electron';
import { CHANNELS } from './channels.ts';
import { BRIDGE, type Bridge, type HostEvent, METHODS } from './host/contract/index.ts';

const calls = Object.fromEntries(
  Object.keys(METHODS).map((method) => [method, (ask: unknown) => ipcRenderer.invoke(CHANNELS.call, method, ask)]),
) as unknown as Bridge['calls'];

const bridge: Bridge = {
  calls,
  hear(told) {
    // The page is given the event's plain data, never Electron's own record of it, which leads to the sender.
    const listen = (_: unknown, event: HostEvent): void => told(event);
    ipcRenderer.on(CHANNELS.event, listen);
    return () => {
      ipcRenderer.off(CHANNELS.event, listen);
    };
  },
};

contextBridge.exposeInMainWorld(BRIDGE, bridge);
