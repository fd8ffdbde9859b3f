/** Outside tools that judge what we write (qpdf, pdftotext ...). A writer's machine may lack them; a build machine may not. */
import { spawnSync } from 'node:child_process';

/** Whether a test that needs the tool can run. Where HANDSCLEAR_TOOLS=required, a missing tool is an error, never a skipped test. */
export function hasTool(name: string): boolean {
  const found = spawnSync(name, ['--version'], { stdio: 'ignore' }).error === undefined;
  if (!found && process.env.HANDSCLEAR_TOOLS === 'required') throw new Error(`${name} is not installed, and this run requires it`);
  return found;
}
