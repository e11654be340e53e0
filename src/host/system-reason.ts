const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file or folder',
  EACCES: 'permission denied',
  EPERM: 'permission denied',
  EISDIR: 'it is a folder, not a file',
  ENOTDIR: 'part of the path is a file, not a folder',
  ENOSPC: 'the disk is full',
  EROFS: 'the disk can only be read',
  EMFILE: 'too many files are open',
  ENAMETOOLONG: 'the name is too long',
  ELOOP: 'too many links lead to it',
};

/** Why the system refused, in plain words. */
export const systemReason = (error: unknown): string => {
  const { code, message } = error as NodeJS.ErrnoException;
  return REASONS[code ?? ''] ?? message ?? String(error);
};
