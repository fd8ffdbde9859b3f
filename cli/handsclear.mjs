#!/usr/bin/env node
/** The command `handsclear`: brings the bundle up to date where the sources are at hand, then runs it. */
import { existsSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { bundle, root, setUp } from './setup.mjs';

// An installed copy carries only the bundle; a clone carries the sources too.
if (existsSync(`${root}/cli/main.ts`)) await setUp();
const { main } = await import(pathToFileURL(bundle).href);
process.exitCode = await main(process.argv.slice(2));
