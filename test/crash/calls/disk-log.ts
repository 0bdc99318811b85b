/**
 * What a process wrote, as strace recorded it, and the disk as it is after a power cut: what was synced is there, of what
 * was not each write may be there, in part or not at all, and names come in their order up to some point.
 */

export type DiskEvent =
  | { readonly kind: "write"; readonly path: string; readonly at: number; readonly bytes: Buffer }
  | { readonly kind: "cut"; readonly path: string; readonly length: number }
  /** From where the target ends, of the same place in the other. */
  | { readonly kind: "copied"; readonly from: string; readonly path: string; readonly length: number }
  | { readonly kind: "sync"; readonly path: string }
  | { readonly kind: "made"; readonly path: string }
  | { readonly kind: "linked" | "renamed"; readonly from: string; readonly path: string }
  | { readonly kind: "removed"; readonly path: string }
  | { readonly kind: "heard"; readonly number: number };

/** For strace: what it must watch, and how it must write it down. */
export const RECORDED =
  "trace=openat,pwrite64,write,fsync,fdatasync,ftruncate,copy_file_range,sendfile,?rename,?renameat,?renameat2,?link,?linkat,?unlink,?unlinkat";

const text = (quoted: string): string => Buffer.from(quoted.replaceAll("\\x", ""), "hex").toString("utf8");
const QUOTED = /"((?:\\x[0-9a-f]{2})*)"/g;
const FD = /^\w+\(\d+<((?:\\x[0-9a-f]{2})*)>/;

/** One finished call; null: it failed, or tells nothing of the disk. */
const eventOf = (line: string, heardPath: string): DiskEvent | null => {
  const result = /\)\s+= (-?\d+)/.exec(line);
  if (result === null || Number(result[1]) < 0) return null;
  const name = line.slice(0, line.indexOf("("));
  const path = text(FD.exec(line)?.[1] ?? "").replace(/ \(deleted\)$/, "");
  const names = [...line.matchAll(QUOTED)].map((match) => match[1] ?? "");
  switch (name) {
    case "openat":
      return /O_CREAT/.test(line) ? { kind: "made", path: text(names[0] ?? "") } : null;
    case "pwrite64":
      return {
        kind: "write",
        path,
        at: Number(/, (\d+)\)\s+= \d+/.exec(line)?.[1]),
        bytes: Buffer.from((names[0] ?? "").replaceAll("\\x", ""), "hex"),
      };
    case "copy_file_range":
    case "sendfile": {
      const [one = "", other = ""] = [...line.matchAll(/\d+<((?:\\x[0-9a-f]{2})*)>/g)].map((match) =>
        text(match[1] ?? ""),
      );
      const length = Number(result[1]);
      return name === "sendfile"
        ? { kind: "copied", from: other, path: one, length }
        : { kind: "copied", from: one, path: other, length };
    }
    case "write":
      return path === heardPath ? { kind: "heard", number: Number(text(names[0] ?? "")) } : null;
    case "fsync":
    case "fdatasync":
      return { kind: "sync", path };
    case "ftruncate":
      return { kind: "cut", path, length: Number(/, (\d+)\)/.exec(line)?.[1]) };
    case "rename":
    case "renameat":
    case "renameat2":
      return { kind: "renamed", from: text(names[0] ?? ""), path: text(names[1] ?? "") };
    case "link":
    case "linkat":
      return { kind: "linked", from: text(names[0] ?? ""), path: text(names[1] ?? "") };
    case "unlink":
    case "unlinkat":
      return { kind: "removed", path: text(names[0] ?? "") };
    default:
      return null;
  }
};

/** What strace wrote down (with `-f -xx -y`), in order; calls that were broken off in the record are put together. */
export const readRecord = (record: string, folder: string, heardPath: string): readonly DiskEvent[] => {
  const begun = new Map<string, string>();
  const events: DiskEvent[] = [];
  for (const whole of record.split("\n")) {
    const [, thread = "", line = ""] = /^(\d+)\s+(.*)$/.exec(whole) ?? [];
    if (line.endsWith("<unfinished ...>")) {
      begun.set(thread, line.slice(0, -"<unfinished ...>".length));
      continue;
    }
    const resumed = /^<\.\.\. \w+ resumed>(.*)$/.exec(line);
    const event = eventOf(resumed === null ? line : `${begun.get(thread) ?? ""}${resumed[1]}`, heardPath);
    if (event === null) continue;
    if (event.kind === "heard" || event.path.startsWith(folder)) events.push(event);
  }
  return events;
};

/** A file whatever it is called: what is surely on the disk, what a program sees, and what was done since it was sure. */
interface Inode {
  readonly sure: Content;
  readonly seen: Content;
  since: Doing[];
}
type Doing = { readonly at: number; readonly bytes: Buffer } | { readonly length: number };

type Naming = { readonly path: string; readonly inode: Inode | null };

const SECTOR = 512;

/** Bytes that grow, written in place. */
class Content {
  #room: Buffer;
  #length: number;
  constructor(from: Buffer = Buffer.alloc(0)) {
    this.#room = Buffer.from(from);
    this.#length = from.length;
  }
  write(at: number, bytes: Buffer): void {
    this.#grow(at + bytes.length);
    bytes.copy(this.#room, at);
  }
  resize(length: number): void {
    if (length < this.#length) this.#room.fill(0, length, this.#length);
    else this.#grow(length);
    this.#length = length;
  }
  do(doing: Doing): void {
    if ("at" in doing) this.write(doing.at, doing.bytes);
    else this.resize(doing.length);
  }
  bytes(): Buffer {
    return Buffer.from(this.#room.subarray(0, this.#length));
  }
  #grow(length: number): void {
    if (length > this.#room.length) {
      const room = Buffer.alloc(length * 2);
      this.#room.copy(room, 0, 0, this.#length);
      this.#room = room;
    }
    this.#length = Math.max(this.#length, length);
  }
}

/** How the cut fell on what was not synced: all of it lost, none, or some. */
export type Fate = "lost" | "kept" | "mixed";

export interface Disk {
  /** Does what was recorded. */
  apply(event: DiskEvent): void;
  /** The files by path as they are when the power goes now. `chance`: numbers from 0 to 1. */
  cut(fate: Fate, chance: () => number): ReadonlyMap<string, Buffer>;
}

export const makeDisk = (): Disk => {
  const names = new Map<string, Inode>();
  const sureNames = new Map<string, Inode>();
  let unsure: Naming[] = [];
  const call = (path: string, inode: Inode | null): void => {
    if (inode === null) names.delete(path);
    else names.set(path, inode);
    unsure.push({ path, inode });
  };
  const inodeAt = (path: string): Inode => {
    const known = names.get(path);
    if (known !== undefined) return known;
    const inode: Inode = { sure: new Content(), seen: new Content(), since: [] };
    call(path, inode);
    return inode;
  };
  const put = (path: string, doing: Doing): void => {
    const inode = inodeAt(path);
    inode.seen.do(doing);
    inode.since.push(doing);
  };
  const settle = (into: Map<string, Inode>, { path, inode }: Naming): void => {
    if (inode === null) into.delete(path);
    else into.set(path, inode);
  };
  const sync = (path: string): void => {
    const inode = names.get(path);
    if (inode !== undefined) {
      for (const doing of inode.since) inode.sure.do(doing);
      inode.since = [];
      return;
    }
    const isIn = (naming: Naming): boolean => naming.path.startsWith(`${path}/`);
    for (const naming of unsure) if (isIn(naming)) settle(sureNames, naming);
    unsure = unsure.filter((naming) => !isIn(naming));
  };
  const after = (inode: Inode, fate: Fate, chance: () => number): Buffer => {
    const content = new Content(inode.sure.bytes());
    for (const doing of inode.since) {
      const share = fate === "mixed" ? chance() : fate === "kept" ? 1 : 0;
      // A third is there, a third is not, a third is there in part.
      if (share > 2 / 3) content.do(doing);
      else if (share > 1 / 3 && "at" in doing)
        content.write(doing.at, doing.bytes.subarray(0, Math.floor((chance() * doing.bytes.length) / SECTOR) * SECTOR));
    }
    return content.bytes();
  };
  return {
    apply: (event) => {
      switch (event.kind) {
        case "made":
          inodeAt(event.path);
          return;
        case "write":
          put(event.path, { at: event.at, bytes: event.bytes });
          return;
        case "copied": {
          const bytes = inodeAt(event.from).seen.bytes();
          const at = inodeAt(event.path).seen.bytes().length;
          put(event.path, { at, bytes: bytes.subarray(at, at + event.length) });
          return;
        }
        case "cut":
          put(event.path, { length: event.length });
          return;
        case "sync":
          sync(event.path);
          return;
        case "linked":
          call(event.path, inodeAt(event.from));
          return;
        case "renamed":
          call(event.path, inodeAt(event.from));
          call(event.from, null);
          return;
        case "removed":
          call(event.path, null);
          return;
        case "heard":
          return;
      }
    },
    cut: (fate, chance) => {
      const left = new Map(sureNames);
      const kept = fate === "mixed" ? Math.floor(chance() * (unsure.length + 1)) : fate === "kept" ? unsure.length : 0;
      for (const naming of unsure.slice(0, kept)) settle(left, naming);
      const contents = new Map<Inode, Buffer>();
      for (const inode of left.values()) if (!contents.has(inode)) contents.set(inode, after(inode, fate, chance));
      return new Map([...left].flatMap(([path, inode]) => [[path, contents.get(inode) ?? Buffer.alloc(0)] as const]));
    },
  };
};
