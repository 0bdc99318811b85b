/** Whether a process of this machine runs. */

export const isRunning = (id: number): boolean => {
  try {
    process.kill(id, 0);
    return true;
  } catch (error) {
    // It is there, and somebody else's.
    return error instanceof Error && "code" in error && error.code === "EPERM";
  }
};
