import type { Argv } from 'yargs';
import { Exit, type ExitCode, usageError } from '../exit.js';
import { type Streams, send } from '../jobs/streams.js';
import { didYouMean } from '../mistakes/nearest.js';
import type { Arguments } from '../options/arguments.js';

/** Ask the command itself, by yargs' own hidden option, what may come next; where nothing may, complete file names. */
const SCRIPTS: Readonly<Record<string, string>> = {
  bash: `_handline() {
  local IFS=$'\\n' current="\${COMP_WORDS[COMP_CWORD]}"
  [[ $current == = ]] && current=
  COMPREPLY=($(compgen -W "$(handline --get-yargs-completions "\${COMP_WORDS[@]}" 2>/dev/null)" -- "$current"))
}
complete -o bashdefault -o default -F _handline handline
`,
  zsh: `#compdef handline
_handline() {
  local -a words_found
  words_found=("\${(@f)$(handline --get-yargs-completions "\${words[@]}" 2>/dev/null)}")
  [[ -n "\${words_found[1]}" ]] && compadd -- "\${(@)words_found%%:*}"
  _files
}
compdef _handline handline
`,
  fish: `complete -c handline -a '(handline --get-yargs-completions (commandline -opc) (commandline -ct) 2>/dev/null | string replace -r ":.*" "")'
`,
};

export const SHELLS = Object.keys(SCRIPTS);

export function buildCompletion(parser: Argv): Argv {
  return parser
    .usage(
      'handline completion bash|zsh|fish\n\nPrints a script that completes commands and options. Let your shell read it when it starts.',
    )
    .example('source <(handline completion bash)', 'in ~/.bashrc')
    .example('source <(handline completion zsh)', 'in ~/.zshrc')
    .example('handline completion fish | source', 'in ~/.config/fish/config.fish');
}

/** `handline completion SHELL`. */
export async function runCompletion(args: Arguments, streams: Streams): Promise<ExitCode> {
  const shell = String(args._[1] ?? '');
  const script = Object.hasOwn(SCRIPTS, shell) ? SCRIPTS[shell] : undefined;
  if (script === undefined || args._.length > 2) {
    throw usageError(`name one shell: ${SHELLS.join(', ')}${didYouMean(shell, SHELLS)}`);
  }
  await send(streams.stdout, script);
  return Exit.ok;
}
