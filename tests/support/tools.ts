/** Outside tools that judge what we write (qpdf, pdftotext ...). A writer's machine may lack them; a build machine may not. */
import { spawnSync } from 'node:child_process';

/** Whether a test that needs the tool can run. Where HANDSCLEAR_TOOLS=required, a missing tool is an error, never a skipped test. */
export function hasTool(name: string): boolean {
  const found = spawnSync(name, ['--version'], { stdio: 'ignore' }).error === undefined;
  if (!found && process.env.HANDSCLEAR_TOOLS === 'required') throw new Error(`${name} is not installed, and this run requires it`);
  return found;
}

/** Another major version of Node, where one is named. */
export function otherNode(): string | undefined {
  const named = process.env.HANDSCLEAR_OTHER_NODE;
  if (named !== undefined && named !== '') return named;
  if (process.env.HANDSCLEAR_TOOLS === 'required') throw new Error('HANDSCLEAR_OTHER_NODE names no other Node, and this run requires one');
  return undefined;
}
