package main

import (
	"bytes"
	"fmt"
	"io"
	"strings"
)

// The scripts come from cobra. These are the places where they are mended.

// inBash lets bash complete behind an opened quotation mark, and says what is
// missing when the script is read.
var inBash = [][2]string{{
	"__start_warmby()\n", `if ! declare -F _init_completion >/dev/null 2>&1 && ! declare -F _get_comp_words_by_ref >/dev/null 2>&1; then
    echo 'warmby: completion in bash needs bash-completion: install it, and load it before this script' >&2
fi

# Behind an opened quotation mark bash puts words as they are.
__warmby_complete_quoted()
{
    local line value typed=${cur:1}
    (((directive & 1) != 0)) && return
    (((directive & 4) != 0)) && compopt +o default
    while IFS='' read -r line; do
        value=${line%%$'\t'*}
        [[ -n $value && $value == "$typed"* ]] && COMPREPLY+=("$value")
    done <<<"$out"
}

__start_warmby()
`}, {
	"    __warmby_get_completion_results\n    __warmby_process_completion_results\n", `    if [[ $cur =~ ^(--[a-z-]+=)?([\"\']) ]]; then
        words[cword]+=${BASH_REMATCH[2]}
        __warmby_get_completion_results
        __warmby_complete_quoted
        return
    fi
    __warmby_get_completion_results
    __warmby_process_completion_results
`}, {
	"        __warmby_init_completion -n =: || return\n", `        declare -F _get_comp_words_by_ref >/dev/null 2>&1 || return
        __warmby_init_completion -n =: || return
`}}

// inZsh does the same for zsh.
var inZsh = [][2]string{{
	"compdef _warmby warmby\n", `if (( ! $+functions[compdef] )); then
    echo 'warmby: completion in zsh needs "autoload -U compinit; compinit" before this script' >&2
    return 1
fi
compdef _warmby warmby
`}, {
	"    __warmby_debug \"About to call: eval ${requestComp}\"\n", `    # Closes a quotation mark that is open.
    if [[ -n "${compstate[quote]}" && ( "${lastChar}" != "${compstate[quote]}" || ${#lastParam} -eq 1 ) ]]; then
        requestComp="${requestComp}${compstate[quote]}"
    fi

    __warmby_debug "About to call: eval ${requestComp}"
`}}

// mended writes a script with all its mends.
func mended(w io.Writer, generate func(io.Writer) error, mends [][2]string) error {
	var b bytes.Buffer
	if err := generate(&b); err != nil {
		return err
	}
	script := b.String()
	for _, m := range mends {
		if strings.Count(script, m[0]) != 1 {
			return fmt.Errorf("the completion script is not as expected: no %q", m[0])
		}
		script = strings.Replace(script, m[0], m[1], 1)
	}
	_, err := io.WriteString(w, script)
	return err
}
