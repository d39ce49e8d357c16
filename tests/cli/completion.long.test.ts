import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { mkdirSync, symlinkSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, type TestContext, test } from 'vitest';
import { workFolder } from './harness.js';

const BIN = fileURLToPath(new URL('../../packages/cli/bin/handline.js', import.meta.url));
const folder = workFolder();

/** The environment of a shell that finds `handline`, in which a folder `scores` waits to be completed. */
function environment(): NodeJS.ProcessEnv {
  for (const name of ['bin', 'scores']) mkdirSync(folder.at(name));
  symlinkSync(BIN, folder.at('bin/handline'));
  return {
    ...process.env,
    PATH: `${folder.at('bin')}:${process.env.PATH}`,
    TERM: 'dumb',
    ZDOTDIR: folder.path,
  };
}

function need(context: TestContext, ...programs: readonly string[]): void {
  for (const program of programs)
    if (spawnSync(program, ['--version']).status !== 0) context.skip(`${program} is not installed here`);
}

function says(shell: string, script: string): string[] {
  const { stdout, stderr } = spawnSync(shell, ['-c', script], {
    cwd: folder.path,
    env: environment(),
    encoding: 'utf8',
  });
  expect(stderr).toBe('');
  return stdout.trim().split('\n');
}

test('bash completes commands, options, their values and files', () => {
  const complete = (words: string) =>
    `COMP_WORDS=(handline ${words}); COMP_CWORD=$((\${#COMP_WORDS[@]} - 1)); _handline; echo "\${COMPREPLY[*]}"`;
  const typed = [
    're',
    'mark --digi',
    'mark --digits sp',
    'mark sco',
    'mark --layers ro',
    'mark --layers = ro',
  ];
  const lines = typed.map(complete);
  const script = ['source <(handline completion bash)', ...lines, 'complete -p handline'].join('\n');
  const [command, option, value, file, layer, glued, how] = says('bash', script);
  expect([command, option, value, file, layer, glued]).toEqual([
    'review',
    '--digits',
    'sparse',
    '',
    'roll',
    'roll',
  ]);
  // Where nothing of ours fits, bash itself completes names of files.
  expect(how).toContain('-o default');
});

test('fish does', (context) => {
  need(context, 'fish');
  const lines = ['re', 'mark --digi', 'mark --digits sp', 'mark sco'].map(
    (words) => `complete -C "handline ${words}"`,
  );
  const found = says('fish', ['handline completion fish | source', ...lines].join('\n'));
  expect(found.map((line) => line.split('\t')[0])).toEqual(['review', '--digits', 'sparse', 'scores/']);
});

/** Waits until the shell has said so, and gives back what came up to there. */
function heard(shell: ChildProcess, text: string): Promise<string> {
  return new Promise((resolve) => {
    let all = '';
    const listen = (chunk: Buffer): void => {
      all += chunk.toString();
      if (!all.includes(text)) return;
      shell.stdout?.off('data', listen);
      resolve(all);
    };
    shell.stdout?.on('data', listen);
  });
}

test('zsh does, at a terminal', async (context) => {
  need(context, 'zsh', 'script');
  folder.put(
    '.zshrc',
    "PS1='> '\nautoload -Uz compinit && compinit -u -D\nsource <(handline completion zsh)\nprint rea''dy\n",
  );
  const shell = spawn('script', ['-qec', 'zsh -i', '/dev/null'], { cwd: folder.path, env: environment() });
  try {
    await heard(shell, 'ready');
    const ask = async (keys: string, answer: string) => {
      const said = heard(shell, answer);
      shell.stdin.write(keys);
      expect(await said).toContain(answer);
    };
    await ask('handline rev\t', 'iew');
    await ask('\u0015handline mark --digi\t', 'ts');
    await ask('sp\t', 'arse');
    await ask('\u0015handline mark sco\t', 'res/');
  } finally {
    shell.kill();
  }
});
