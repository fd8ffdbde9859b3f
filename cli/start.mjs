/** `npm start`. A placeholder that says so until the app's window is built. */
import { setUp } from './setup.mjs';

await setUp();
console.log(`Handsclear's window is not built yet, so there is nothing to open here.

What works today is the command line:
  npm run demo                                      checks the sample library and prints its guides into out/
  npm run -s handsclear -- check sample-procedures  checks a library
  npm run -s handsclear -- --help                   everything else`);
