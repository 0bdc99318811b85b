/** `completion`: a script that teaches a shell the commands and options. */
import { PlanningError } from "../../../app/ground/failure.ts";
import { argument, type CliCommand } from "../cli-command.ts";
import { completionScript, shells } from "../completion-script.ts";

export const completionCommand = {
  name: "completion",
  summary: "Write a completion script for bash, zsh or fish",
  examples: [
    { line: "completion bash", does: 'bash: put  eval "$(coldstock completion bash)"  into ~/.bashrc' },
    { line: "completion zsh", does: "zsh: write it to a file _coldstock in a folder of $fpath" },
    { line: "completion fish", does: "fish: write it to ~/.config/fish/completions/coldstock.fish" },
  ],
  declare: (command) => {
    command.argument("<shell>", "bash, zsh or fish");
  },
  act: async (host, given) => {
    const shell = shells.find((each) => each === argument(given, 0));
    if (shell === undefined)
      throw new PlanningError("invalid input", `Completion is there for: ${shells.join(", ")}.`, "shell");
    const script = completionScript(shell, host.commands());
    return await Promise.resolve({ holds: true, json: { shell, script }, text: script.trimEnd() });
  },
} satisfies CliCommand;
