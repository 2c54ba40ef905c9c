#compdef piecebook
# Completion of piecebook for zsh. For this window: source <(piecebook completion zsh)
# For every one: piecebook completion zsh > a file _piecebook in a folder of $fpath.
_piecebook() {
    local -a fitting
    fitting=("${(@f)$(piecebook --complete-words "${(@)words[2,CURRENT]}" 2>/dev/null)}")
    if [[ -n "${fitting[1]}" ]]; then
        compadd -- $fitting
    else
        _files
    fi
}
compdef _piecebook piecebook
