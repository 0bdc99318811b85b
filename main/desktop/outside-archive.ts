/** Paths inside a package's archive, for a plain Node that cannot read there. */

/** Whoever names a Node for the service lays the files of the archive, unpacked, beside it. */
export const outsideArchive = (program: string): string => program.replace(/app\.asar(?=[\\/])/, "app.asar.unpacked");
