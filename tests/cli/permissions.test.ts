import { chmodSync, chownSync, mkdirSync, readFileSync, statSync } from 'node:fs';
import { beforeEach, describe, expect, test } from 'vitest';
import { handline as asOneself, scale, workFolder } from './harness.js';

const folder = workFolder();
const NOBODY = 65534;
/** Root may do everything, so that for root the command runs as nobody. */
const user = process.getuid?.() === 0 ? { uid: NOBODY, gid: NOBODY } : {};

async function handline(args: readonly string[]) {
  try {
    if (user.uid !== undefined) {
      process.setegid?.(user.gid);
      process.seteuid?.(user.uid);
    }
    const { code, stdout, stderr } = await asOneself(args, folder.path);
    return { code, stdout: stdout.toString(), stderr };
  } finally {
    if (user.uid !== undefined) {
      process.seteuid?.(0);
      process.setegid?.(0);
    }
  }
}

/** A file or folder of the user's own with some access rights. */
function own(name: string, mode: number, content?: string): void {
  if (content === undefined) mkdirSync(folder.at(name));
  else folder.put(name, content);
  if (user.uid !== undefined) chownSync(folder.at(name), user.uid, user.gid);
  chmodSync(folder.at(name), mode);
}

beforeEach(() => {
  if (user.uid !== undefined) chownSync(folder.path, user.uid, user.gid);
  own('a.musicxml', 0o644, scale());
});

const text = (name: string) => readFileSync(folder.at(name), 'utf8');
const denied = (name: string) => `handline: ${name}: access is denied; check the permissions\n`;

describe('what may not be read or written', () => {
  test('an input', async () => {
    own('secret.musicxml', 0o000, scale());
    for (const where of [['-o', 'out.musicxml'], ['--in-place'], ['--out-dir', 'out']]) {
      const { code, stdout, stderr } = await handline(['mark', 'secret.musicxml', ...where, '--quiet']);
      expect({ code, stdout, stderr }).toEqual({ code: 1, stdout: '', stderr: denied('secret.musicxml') });
    }
    expect(folder.names()).toEqual(['a.musicxml', 'secret.musicxml']);
    chmodSync(folder.at('secret.musicxml'), 0o600);
    expect(text('secret.musicxml')).toBe(scale());
  });

  test('a folder for the result, or one in which a folder would be made', async () => {
    own('closed', 0o555);
    const places: [string[], string][] = [
      [['-o', 'closed/out.musicxml'], 'closed/out.musicxml'],
      [['--out-dir', 'closed'], 'closed/a.musicxml'],
      [['--out-dir', 'closed/new'], 'closed/new/a.musicxml'],
    ];
    for (const [where, name] of places) {
      const { code, stderr } = await handline(['mark', 'a.musicxml', ...where, '--quiet']);
      expect({ code, stderr }).toEqual({ code: 3, stderr: denied(name) });
    }
    expect([folder.names('closed'), text('a.musicxml')]).toEqual([[], scale()]);
  });

  test('the folder of a file that is to be changed in place', async () => {
    own('closed', 0o755);
    own('closed/b.musicxml', 0o644, scale());
    chmodSync(folder.at('closed'), 0o555);
    const { code, stderr } = await handline(['mark', 'closed/b.musicxml', '--in-place', '--quiet']);
    expect({ code, stderr }).toEqual({ code: 3, stderr: denied('closed/b.musicxml') });
    expect([folder.names('closed'), text('closed/b.musicxml')]).toEqual([['b.musicxml'], scale()]);
  });

  test.each([
    ['to be read only', 0o444],
    ['for nobody', 0o000],
  ])('a result %s that is there already, with --force too', async (_, mode) => {
    own('out.musicxml', mode, 'precious');
    const { code, stderr } = await handline([
      'mark',
      'a.musicxml',
      '-o',
      'out.musicxml',
      '--force',
      '--quiet',
    ]);
    expect(code).toBe(3);
    expect(stderr).toBe(
      'handline: out.musicxml: is write-protected; remove the protection or write elsewhere\n',
    );
    expect(statSync(folder.at('out.musicxml')).mode & 0o777).toBe(mode);
    chmodSync(folder.at('out.musicxml'), 0o600);
    expect(text('out.musicxml')).toBe('precious');
    expect(folder.names()).toEqual(['a.musicxml', 'out.musicxml']);
  });
});
