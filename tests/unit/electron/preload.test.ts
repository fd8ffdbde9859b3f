import { beforeAll, describe, expect, test, vi } from 'vitest';
import { BRIDGE, type Bridge, METHODS } from '../../../electron/host/contract/index.ts';
import { electron } from '../../support/electron.ts';

vi.mock('electron', () => electron);

const { contextBridge, ipcRenderer } = electron;
let bridge: Bridge;
beforeAll(async () => {
  await import('../../../electron/preload.ts');
  bridge = contextBridge.exposed.get(BRIDGE) as Bridge;
});

describe('the page is given', () => {
  test('one thing', () => expect([...contextBridge.exposed.keys()]).toEqual(['handsclear']));

  test('one function for each method of the contract, and no way to name another', () => {
    expect(Object.keys(bridge)).toEqual(['calls', 'hear']);
    expect(Object.keys(bridge.calls)).toEqual(Object.keys(METHODS));
    for (const call of Object.values(bridge.calls)) expect(call).toBeTypeOf('function');
  });

  test('functions that ask on one channel, with their own name and one request', async () => {
    const call = bridge.calls['library.open'] as (...words: unknown[]) => Promise<unknown>;
    await call({ folder: 'x' }, 'more', 'words');
    expect(ipcRenderer.invoked).toEqual([['handsclear:call', 'library.open', { folder: 'x' }]]);
  });

  test("events as plain data, without Electron's own record of them, until it stops to listen", () => {
    const heard: unknown[][] = [];
    const stop = bridge.hear((...words) => heard.push(words));
    ipcRenderer.emit('handsclear:event', { sender: 'secret' }, { event: 'action', name: 'save' });
    stop();
    ipcRenderer.emit('handsclear:event', { sender: 'secret' }, { event: 'action', name: 'undo' });
    expect(heard).toEqual([[{ event: 'action', name: 'save' }]]);
    expect(ipcRenderer.listenerCount('handsclear:event')).toBe(0);
  });
});
