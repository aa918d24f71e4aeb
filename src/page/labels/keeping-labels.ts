/** The words of keeping cases on this device. */
export const keepingLabels = {
  keepingTitle: "Keeping on this device",
  keepingOff:
    "The cases are in memory alone: when this window closes, or the browser ends, they are gone. " +
    "The file that they are from stays where it is.",
  keepingWhat:
    "Kept are the files as they were opened, the corrections and further files, in this browser " +
    "on this device, and written anew at each change. Nothing is sent anywhere.",
  keepingInvented: "Invented cases need no keeping: open your own first.",
  keepingOn: "The cases are kept on this device, and written anew at each change.",
  keepingInOpen: "They are not encrypted: whoever can use this browser can open them.",
  keepingSealed: "They are encrypted: without the passphrase nobody can open them, you included.",
  keepingLocked: "Cases are kept on this device under a passphrase.",
  keepingConflict:
    "Another window has kept cases, or erased them, since: nothing is written from here, so that " +
    "neither overwrites the other.",
  keepingRefused:
    "The browser does not let this page keep anything, or has no room: nothing is kept.",
  passphrase: "Passphrase",
  passphraseHelp: (least: number) =>
    `Several words are best; at least ${least} characters. Left empty, the cases are kept unencrypted.`,
  passphraseWrong: "This is not the passphrase that they were kept under.",
  passphraseWorking: "Working out the key",
  keepSecret: "Keep the key of patients' codes with them",
  keepThem: "Keep on this device",
  openKept: "Open the kept cases",
  eraseKept: "Erase what is kept",
  keepTheseInstead: "Keep these cases in their place",
  keptOpened: "The cases that are kept on this device are open.",
  keptUnreadable:
    "What is kept on this device is damaged and cannot be read. It stays as it is until it is erased.",
  inventedInstead: "Look at invented cases instead",
} as const;
