/** Why the system would not read or write, in plain words. */
export function refusalWords(refusal: unknown): string {
  const code = (refusal as Partial<NodeJS.ErrnoException> | null)?.code;
  const words = code === undefined ? undefined : plainWords.get(code);
  if (words !== undefined) return words;
  return refusal instanceof Error ? refusal.message : String(refusal);
}

/** By the codes of errors of POSIX. */
const plainWords: ReadonlyMap<string, string> = new Map([
  ["ENOENT", "there is no such file or folder"],
  ["EISDIR", "it is a folder"],
  ["ENOTDIR", "a part of its path is a file and no folder"],
  ["EEXIST", "there is a file of that name"],
  ["EACCES", "you are not allowed to"],
  ["EPERM", "you are not allowed to"],
  ["EROFS", "the disk can only be read"],
  ["ENOSPC", "the disk is full"],
  ["EDQUOT", "your share of the disk is full"],
  ["EFBIG", "it is larger than the disk allows"],
  ["EBUSY", "another program holds it"],
  ["ENAMETOOLONG", "the name is too long"],
  ["EMFILE", "too many files are open"],
]);
