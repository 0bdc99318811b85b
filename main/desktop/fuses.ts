/** How the switches inside the Electron binary stand in a package of the program (item 19 of Electron's security list). */

/** Names as Electron writes them; the packaging step sets them, a test sets them on a real binary and tries it. */
export const packageFuses = {
  /** The binary does not serve as a plain Node. */
  RunAsNode: false,
  EnableCookieEncryption: true,
  /** NODE_OPTIONS and --inspect are not heard. */
  EnableNodeOptionsEnvironmentVariable: false,
  EnableNodeCliInspectArguments: false,
  EnableEmbeddedAsarIntegrityValidation: true,
  OnlyLoadAppFromAsar: true,
  GrantFileProtocolExtraPrivileges: false,
} as const;
