package fault

// Code names a kind of problem for good: codes are written into seen.csv and
// into other programs, so one is never reused with another meaning.
type Code string
