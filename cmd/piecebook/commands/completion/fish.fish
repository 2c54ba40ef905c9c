# Completion of piecebook for fish. For this window: piecebook completion fish | source
# For every one: piecebook completion fish > ~/.config/fish/completions/piecebook.fish
function __piecebook_fitting
    set -l typed (commandline -opc) (commandline -ct)
    piecebook --complete-words $typed[2..-1] 2>/dev/null
end
complete -c piecebook -a '(__piecebook_fitting)'
