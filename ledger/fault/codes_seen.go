package fault

// CodeSeenNotRead is the one problem of seen.csv: a line that is not as
// piecebook writes it.
const CodeSeenNotRead Code = "seen-not-read"
