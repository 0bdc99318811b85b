/** Scripts that teach bash, zsh and fish the commands and their options; file names are completed by the shell itself. */
import type { Command } from "commander";
import { missingCase } from "../../app/ground/missing-case.ts";

export const shells = ["bash", "zsh", "fish"] as const;
export type Shell = (typeof shells)[number];

export interface DescribedOption {
  /** "--case". */
  readonly flag: string;
  readonly words: string;
  /** A word follows it. */
  readonly takesValue: boolean;
}

export interface DescribedCommand {
  readonly name: string;
  readonly summary: string;
  readonly options: readonly DescribedOption[];
}

/** What a program's commands take, as they declared it. */
export const describeProgram = (program: Command): readonly DescribedCommand[] =>
  program.commands.map((command) => ({
    name: command.name(),
    summary: command.description(),
    options: [
      ...command.options.flatMap(({ long, description, required, optional }) =>
        long === undefined || long === null
          ? []
          : [{ flag: long, words: description, takesValue: required || optional }],
      ),
      { flag: "--help", words: "what the command takes", takesValue: false },
    ],
  }));

const namesOf = (commands: readonly DescribedCommand[]): string => commands.map(({ name }) => name).join(" ");

const bash = (commands: readonly DescribedCommand[]): string => `# coldstock: completion for bash
_coldstock() {
  local word=\${COMP_WORDS[COMP_CWORD]} options=""
  COMPREPLY=()
  if ((COMP_CWORD == 1)); then
    COMPREPLY=($(compgen -W "${namesOf(commands)} --help --version" -- "$word"))
    return
  fi
  case \${COMP_WORDS[1]} in
${commands.map(({ name, options }) => `    ${name}) options="${options.map(({ flag }) => flag).join(" ")}" ;;`).join("\n")}
  esac
  if [[ $word == -* ]]; then COMPREPLY=($(compgen -W "$options" -- "$word")); fi
}
complete -o bashdefault -o default -F _coldstock coldstock
`;

/** Between single quotes of a shell. */
const quoted = (text: string): string => `'${text.replaceAll("'", `'\\''`)}'`;

/** Colons and brackets part the fields of a specification in zsh. */
const zshWords = (text: string): string => text.replaceAll(/[\\[\]:]/g, (sign) => `\\${sign}`);

const zshOption = ({ flag, words, takesValue }: DescribedOption): string =>
  quoted(`${flag}[${zshWords(words)}]${takesValue ? ":value:_files" : ""}`);

const zsh = (commands: readonly DescribedCommand[]): string => `#compdef coldstock
_coldstock() {
  local -a commands
  commands=(
${commands.map(({ name, summary }) => `    ${quoted(`${name}:${zshWords(summary)}`)}`).join("\n")}
  )
  if (( CURRENT == 2 )); then
    _describe -t commands command commands
    return
  fi
  case $words[2] in
${commands.map(({ name, options }) => `    ${name}) _arguments ${options.map(zshOption).join(" ")} '*:file:_files' ;;`).join("\n")}
  esac
}
if [[ $funcstack[1] == _coldstock ]]; then _coldstock "$@"; else compdef _coldstock coldstock; fi
`;

const fishCommand = ({ name, summary, options }: DescribedCommand): string =>
  [
    `complete -c coldstock -n __fish_use_subcommand -f -a ${name} -d ${quoted(summary)}`,
    ...options.map(
      ({ flag, words, takesValue }) =>
        `complete -c coldstock -n '__fish_seen_subcommand_from ${name}' -l ${flag.slice(2)}${takesValue ? " -r" : ""} -d ${quoted(words)}`,
    ),
  ].join("\n");

/** The whole script; ends in a newline. */
export const completionScript = (shell: Shell, commands: readonly DescribedCommand[]): string => {
  switch (shell) {
    case "bash":
      return bash(commands);
    case "zsh":
      return zsh(commands);
    case "fish":
      return `# coldstock: completion for fish\n${commands.map(fishCommand).join("\n")}\n`;
    default:
      return missingCase(shell);
  }
};
