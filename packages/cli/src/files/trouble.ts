/** The system's error codes in plain words, with what to do. */
const WORDS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file or folder; check the name',
  EACCES: 'access is denied; check the permissions',
  EPERM: 'the system does not allow it; check the permissions',
  EISDIR: 'is a folder; name a file',
  ENOTDIR: 'part of the path is not a folder; check the name',
  EEXIST: 'is already there; choose another name or give --force',
  ENOSPC: 'the disk is full; free some space and run again',
  EDQUOT: 'your disk quota is used up; free some space and run again',
  EFBIG: 'the file would be larger than the system allows; raise the limit or write elsewhere',
  EROFS: 'the disk is read-only; write elsewhere',
  ENAMETOOLONG: 'the name is too long; choose a shorter one',
  ELOOP: 'its symbolic links form a loop; name the file itself',
  EMFILE: 'too many files are open; close some and run again',
  EBUSY: 'is in use by another program; close it there and run again',
  EPIPE: 'the reader closed the pipe; ignore this if it was intended',
  EIO: 'the disk reports an error; check it and run again',
};

export function systemCode(error: unknown): string | undefined {
  const code = error instanceof Error && 'code' in error ? error.code : undefined;
  return typeof code === 'string' ? code : undefined;
}

export function inPlainWords(error: unknown): string {
  const code = systemCode(error);
  // Node.js puts U+FFFD for bytes of a name that are not UTF-8, and so cannot find the file that it has listed.
  if (code === 'ENOENT' && (error as NodeJS.ErrnoException).path?.includes('\ufffd'))
    return 'its name is not in UTF-8; rename it';
  if (code !== undefined) return WORDS[code] ?? `the system says ${code}`;
  return error instanceof Error ? error.message : String(error);
}
