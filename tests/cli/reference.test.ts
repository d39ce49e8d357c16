import { readFileSync, writeFileSync } from 'node:fs';
import { afterEach, expect, test, vi } from 'vitest';
import { COMMANDS } from '../../packages/cli/src/commands/commands.js';
import { handline } from './harness.js';

const REFERENCE = new URL('../../packages/cli/docs/reference.md', import.meta.url);

afterEach(() => vi.restoreAllMocks());

async function helpOf(...words: string[]): Promise<string> {
  const lines: string[] = [];
  vi.spyOn(console, 'log').mockImplementation((text: string) => void lines.push(text));
  expect(await handline([...words, '--help'], '.')).toMatchObject({ code: 0, stderr: '' });
  return lines.join('\n').trimEnd();
}

test('the reference is what the help says', async () => {
  const parts = [`# The command\n\n\`\`\`text\n${await helpOf()}\n\`\`\`\n`];
  for (const { name } of COMMANDS) {
    parts.push(`## handline ${name}\n\n\`\`\`text\n${await helpOf(name)}\n\`\`\`\n`);
  }
  const reference = parts.join('\n');
  if (process.env.HANDLINE_RECORD === '1') writeFileSync(REFERENCE, reference);
  expect(readFileSync(REFERENCE, 'utf8')).toBe(reference);
});
