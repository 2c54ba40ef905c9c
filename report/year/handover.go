package year

import (
	"fmt"
	"strings"

	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/page"
	"piecebook/report/words"
)

// HandedFile is a file of the folder that is handed over.
type HandedFile struct {
	Name   string `json:"name"`
	Size   int    `json:"bytes"`
	SHA256 string `json:"sha256"`
	About  string `json:"about"`
}

// HandoverWords is the folder's own page in plain text: what it is, what is
// in it, and how long papers are kept, each on whose word.
func HandoverWords(in report.YearInput, files []HandedFile) string {
	var b strings.Builder
	y := in.Tax
	say := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	say("%s", strings.TrimSpace(in.Settings().Shop+" · cost records of "+fmt.Sprint(y.Year)))
	say("")
	say("%s", in.Cautions.RecordsOnly)
	say("")
	say("%s", yearSentence(&in, func(c money.Cents, _ page.Ref) page.Cell {
		return page.Spoken(page.Amount(int64(c), in.Month.Currency+" ", true), int64(c))
	}).String())
	say("Records' fingerprint: %s. %s.", in.Fingerprint, in.Tally)
	say("")
	say("What is missing")
	if len(in.Missing()) == 0 {
		say("  Nothing that these records could tell.")
	}
	for _, m := range in.Missing() {
		say("  - %s", words.YearNote(m.Note))
	}
	say("")
	say("Files, each with its size and SHA-256 (files.sha256 has the same for a program)")
	for _, f := range files {
		say("  %s: %s", f.Name, f.About)
		say("    %d bytes, %s", f.Size, f.SHA256)
	}
	say("")
	say("How long to keep papers")
	for _, k := range in.Law.Keep {
		say("  - %s: %s. Source: %s.", k.What, k.Long, k.Source)
	}
	say("")
	say("%s", in.Law.Sources)
	return b.String()
}

// HashList is the files' hashes as common programs check them: two blanks
// between hash and name.
func HashList(files []HandedFile) string {
	var b strings.Builder
	for _, f := range files {
		fmt.Fprintf(&b, "%s  %s\n", f.SHA256, f.Name)
	}
	return b.String()
}
