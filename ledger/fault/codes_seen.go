package fault

// CodeSeenNotRead is the one problem of seen.csv.
const CodeSeenNotRead Code = "seen-not-read"

// SeenCatalogue says what the code means.
var SeenCatalogue = map[Code]string{
	CodeSeenNotRead: "a line of seen.csv that is not as piecebook writes it",
}
