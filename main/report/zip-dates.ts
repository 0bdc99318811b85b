/**
 * Gives every file inside a ZIP archive one date, in place: a workbook is such an archive, and the library that writes it
 * puts the present time into it, so that the same workbook would never be the same bytes twice. The layout of the records
 * is that of the ZIP file format (ECMA-376 part 2 builds on it; ISO/IEC 21320-1 names the profile).
 */

const END_OF_DIRECTORY = 0x06054b50;
const DIRECTORY_ENTRY = 0x02014b50;
const LOCAL_HEADER = 0x04034b50;

/** Dates in a ZIP are kept to two seconds, from 1980 to 2107. */
const EARLIEST_YEAR = 1980;
const LATEST_YEAR = 2107;

const packedTime = (at: Date): number =>
  (at.getUTCHours() << 11) | (at.getUTCMinutes() << 5) | (at.getUTCSeconds() >> 1);

const packedDate = (at: Date): number =>
  ((Math.min(LATEST_YEAR, Math.max(EARLIEST_YEAR, at.getUTCFullYear())) - EARLIEST_YEAR) << 9) |
  ((at.getUTCMonth() + 1) << 5) |
  at.getUTCDate();

const expectSignature = (archive: Buffer, offset: number, signature: number): void => {
  if (archive.readUInt32LE(offset) !== signature) throw new Error("the archive that was just written is not a ZIP");
};

/** Writes the instant (UTC) as the date of all files of the archive. Throws a plain error where it is none: a defect. */
export const dateZip = (archive: Buffer, at: number): Buffer => {
  const end = archive.lastIndexOf(Buffer.from([0x50, 0x4b, 0x05, 0x06]));
  if (end < 0) throw new Error("the archive that was just written is not a ZIP");
  expectSignature(archive, end, END_OF_DIRECTORY);
  const when = new Date(at);
  let offset = archive.readUInt32LE(end + 16);
  for (let left = archive.readUInt16LE(end + 10); left > 0; left -= 1) {
    expectSignature(archive, offset, DIRECTORY_ENTRY);
    const local = archive.readUInt32LE(offset + 42);
    expectSignature(archive, local, LOCAL_HEADER);
    archive.writeUInt16LE(packedTime(when), offset + 12);
    archive.writeUInt16LE(packedDate(when), offset + 14);
    archive.writeUInt16LE(packedTime(when), local + 10);
    archive.writeUInt16LE(packedDate(when), local + 12);
    offset +=
      46 + archive.readUInt16LE(offset + 28) + archive.readUInt16LE(offset + 30) + archive.readUInt16LE(offset + 32);
  }
  return archive;
};
