# Completion of piecebook for bash. For this window: source <(piecebook completion bash)
# For every one: piecebook completion bash > ~/.local/share/bash-completion/completions/piecebook
_piecebook() {
    local IFS=$'\n'
    COMPREPLY=($(piecebook --complete-words "${COMP_WORDS[@]:1:COMP_CWORD}" 2>/dev/null))
}
complete -o default -F _piecebook piecebook
