# Completion of piecebook for PowerShell. For this window:
#   piecebook completion powershell | Out-String | Invoke-Expression
# For every one: add that line to the file that $PROFILE names.
Register-ArgumentCompleter -Native -CommandName piecebook -ScriptBlock {
    param($wordToComplete, $commandAst, $cursorPosition)
    $typed = @($commandAst.CommandElements | Select-Object -Skip 1 | ForEach-Object { $_.ToString() })
    if ($wordToComplete -eq '') { $typed += '""' }
    piecebook --complete-words @typed 2>$null | ForEach-Object {
        [System.Management.Automation.CompletionResult]::new($_, $_, 'ParameterValue', $_)
    }
}
