package cli

import (
	"cmp"
	"fmt"
	"io/fs"
	"maps"
	"path/filepath"
	"slices"
	"strings"

	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake"
	"piecebook/ledger/money"
	"piecebook/ledger/seen"
	"piecebook/report/words"
)

// ProblemAnswer is check's answer as JSON.
type ProblemAnswer struct {
	Schema   string              `json:"schema"`
	Problems []fault.Problem     `json:"problems"`
	Quiet    []fault.Problem     `json:"quiet"`
	Count    []countJSON         `json:"count_these"`
	Settings []string            `json:"settings"`
	Tally    []intake.TableTally `json:"tally"`
	Total    string              `json:"total"`
	Money    moneyJSON           `json:"money"`

	GivenOut    []givenJSON    `json:"given_out,omitempty"`
	Corrections *correctedJSON `json:"corrections,omitempty"`
}

// countJSON is a supply to count: amounts in containers, money with two decimals.
type countJSON struct {
	Supply     string       `json:"supply"`
	Left       string       `json:"left"`
	KnownFrom  ledger.Basis `json:"coverage_known_from"`
	UsuallyOff int64        `json:"usually_off_percent"`
	Since      string       `json:"since"`
	UsedCents  money.Cents  `json:"used"`
	AtStake    money.Cents  `json:"at_stake"`
}

func ProblemsJSON(b *Books) ProblemAnswer {
	// Never null: an empty list is a list too.
	all := append(append([]fault.Problem{}, b.Problems.Errors()...), b.Problems.Notes()...)
	quiet := append([]fault.Problem{}, b.Quiet.Notes()...)
	counts := []countJSON{}
	for _, c := range b.CountThese() {
		counts = append(counts, countJSON{c.Supply.Name, money.AtMost(c.Left, 4), c.Known, c.Off, c.Since.String(), c.Charged,
			c.AtStake})
	}
	return ProblemAnswer{Schema: "piecebook/problems/1", Problems: all, Quiet: quiet, Count: counts, Tally: b.Read.Tally,
		Total: words.RowsInAll(b.Read.Tally), Money: moneyOf(b.Read.Money), Settings: append([]string{},
			b.Read.SettingsLines()...)}
}

// ofAKind is how many problems of one code in one file are shown before the
// rest is only counted.
const ofAKind = 20

// ProblemLines is all problems grouped by file, errors first.
func ProblemLines(b *Books, all bool) []string {
	var out []string
	if files := unread(b); len(files) > 0 && !b.Problems.HasErrors() {
		out = append(out, fmt.Sprintf("%s not read yet: %s Next: %s", fault.Plural(len(files), "1 file is",
			fmt.Sprintf("%d files are", len(files))), FirstFew(files), nextForUnread(b)), "")
	}
	notes, remarks := b.Notes()
	causes, waiting := b.Errors()
	out = append(out, grouped(causes, all, "to put right")...)
	out = append(out, waitingLines(waiting, all)...)
	if len(causes)+len(waiting) > 0 && len(notes) > 0 {
		out = append(out, "")
	}
	if len(notes) > 0 {
		out = append(out, fmt.Sprintf("%d %s worth a look, the largest in money first", len(notes), fault.Plural(len(notes),
			"note", "notes")))
		out = append(out, limited(notes, all)...)
		if !b.call.InMenu {
			out = append(out, fmt.Sprintf("  To quiet one: %s %s %q", b.ToType("seen"), notes[0].Code,
				notes[0].Place.Short()))
		}
	}
	out = append(out, countLines(b)...)
	if len(remarks) > 0 {
		out = append(out, fmt.Sprintf("%s with nothing to type", words.Plural(len(remarks), "remark", "remarks")))
		out = append(out, limited(remarks, all)...)
	}
	out = append(out, quietLines(b, all)...)
	out = append(out, proposed(b)...)
	if len(out) > 0 {
		out = append(out, "")
	}
	return out
}

// unread is the files that hold rows of which none is read, where nothing in the books
// is read.
func unread(b *Books) []string {
	var out []string
	for _, t := range b.Read.Tally {
		switch {
		case t.Used+t.Refused > 0:
			return nil
		case t.NotTable > 0 && !slices.Contains(out, t.File):
			out = append(out, t.File)
		}
	}
	return out
}

// nextForUnread is what to do about files of which nothing is read.
func nextForUnread(b *Books) string {
	if len(b.Read.SettingsLines()) > 0 {
		return "paste the lines given here into settings.toml, and name each other sheet for its table, as its note says."
	}
	return "name each sheet for its table under [sheets] of settings.toml, as its note says; \"none\" " +
		"there skips one."
}

// Notes are the books' notes as NotesOf has them.
func (b *Books) Notes() (asking, remarks []fault.Problem) { return NotesOf(b.Problems.Notes()) }

// NotesOf is the notes that ask for something, and those that only remark on how
// something was read or where it went.
func NotesOf(notes []fault.Problem) (asking, remarks []fault.Problem) {
	for _, n := range notes {
		if n.AsksNothing {
			remarks = append(remarks, n)
		} else {
			asking = append(asking, n)
		}
	}
	return asking, remarks
}

// countLines is the supplies whose count would move the most money.
func countLines(b *Books) []string {
	counts := b.CountThese()
	if len(counts) == 0 {
		return nil
	}
	out := []string{"Count these; what the count usually moves, the most first"}
	for _, c := range counts {
		out = append(out, fmt.Sprintf("  %s: %s by the records; %s  [in doubt %s]", c.Supply.Name, words.LeftByRecords(c),
			words.WhyCount(c), c.AtStake.Grouped()))
	}
	return out
}

// Errors are what is wrong by itself, and what only rests on a line that is: days
// out of order do, where it is asked which way days are written.
func (b *Books) Errors() (causes, waiting []fault.Problem) {
	all := b.Problems.Errors()
	asked := slices.ContainsFunc(all, func(p fault.Problem) bool { return p.Code == fault.CodeDateOtherOrder })
	for _, p := range all {
		if p.Code == fault.CodeRefusedRow || asked && p.Code == fault.CodeBeforeItCame {
			p.Cause = cmp.Or(p.Cause, p.Why)
			waiting = append(waiting, p)
		} else {
			causes = append(causes, p)
		}
	}
	return causes, waiting
}

// waitingLines is what rests on lines that are refused: a line for each of
// those with where it is named, or in full where all are asked for.
func waitingLines(waiting []fault.Problem, all bool) []string {
	if len(waiting) == 0 {
		return nil
	}
	out := []string{"", "Nothing to type here until the above is right; these lines may be right then"}
	if all {
		return append(out, limited(waiting, true)...)
	}
	var causes []string
	places := map[string][]string{}
	for _, p := range waiting {
		if places[p.Cause] == nil {
			causes = append(causes, p.Cause)
		}
		places[p.Cause] = append(places[p.Cause], p.Place.Short())
	}
	for _, cause := range causes {
		out = append(out, fmt.Sprintf("  %s Named at %s", cause, FirstFew(places[cause])))
	}
	return out
}

// proposed is the settings lines that would have some of it read as it is,
// ready to paste.
func proposed(b *Books) []string {
	lines := b.Read.SettingsLines()
	if len(lines) == 0 {
		return nil
	}
	file := filepath.Join(b.dir, "settings.toml")
	if _, err := fs.Stat(b.Folder, "settings.toml"); err != nil {
		file += " (make it: a plain text file)"
	}
	return append([]string{"", fmt.Sprintf("To have it read as it is, paste these lines into %s, if they say "+
		"what you mean:", file), ""}, lines...)
}

// quietLines counts the notes that seen.csv quiets, and prints them if all are
// asked for.
func quietLines(b *Books, all bool) []string {
	quiet := b.Quiet.Notes()
	n := len(quiet)
	switch {
	case n == 0:
		return nil
	case all:
		return append([]string{fmt.Sprintf("%d quiet %s", n, fault.Plural(n, "note", "notes"))}, limited(quiet, true)...)
	}
	return []string{fmt.Sprintf("%d %s quiet (%s); piecebook check --all prints %s.", n, fault.Plural(n, "note is",
		"notes are"), seen.File, fault.Plural(n, "it", "them"))}
}

// grouped prints problems under their files.
func grouped(list []fault.Problem, all bool, what string) []string {
	var out []string
	for len(list) > 0 {
		file := list[0].Place.File
		end := slices.IndexFunc(list, func(p fault.Problem) bool { return p.Place.File != file })
		if end < 0 {
			end = len(list)
		}
		if len(out) > 0 {
			out = append(out, "")
		}
		out = append(out, fmt.Sprintf("%s: %d %s", file, end, what))
		out = append(out, limited(list[:end], all)...)
		list = list[end:]
	}
	return out
}

// limited prints problems, at most ofAKind of one code unless all are asked for.
func limited(list []fault.Problem, all bool) []string {
	var out []string
	seen := map[fault.Code]int{}
	for _, p := range list {
		if seen[p.Code]++; seen[p.Code] <= ofAKind || all {
			out = append(out, "  "+p.String()+"  ["+string(p.Code)+moves(p)+"]")
		}
	}
	for _, code := range slices.Sorted(maps.Keys(seen)) {
		if n := seen[code]; n > ofAKind && !all {
			out = append(out, fmt.Sprintf("  and %d more of the kind %s; piecebook check --all prints them.", n-ofAKind, code))
		}
	}
	return out
}

// moves is what a note could move in money, where that is known.
func moves(p fault.Problem) string {
	if p.MoneyCents == 0 {
		return ""
	}
	return ", in doubt " + money.Cents(p.MoneyCents).Grouped()
}

// TallyLines is what was read, file by file, and the line of totals.
func TallyLines(b *Books) []string {
	var out []string
	out = append(out, words.RowsOfSheets(b.Read.Tally)...)
	out = append(out, words.AbsentInShort(b.Read, b.Set.Tables)...)
	causes, waiting := b.Errors()
	switch errs := len(causes); {
	case b.nothing != "":
		out = []string{b.nothing}
	case errs+len(waiting) > 0:
		text := fmt.Sprintf("%d %s to put right before a report can be made", errs, fault.Plural(errs, "problem", "problems"))
		if n := len(waiting); n > 0 {
			text += fmt.Sprintf("; %d more %s may be right then", n, fault.Plural(n, "line", "lines"))
		}
		out = append(out, text+".")
	case len(unread(b)) > 0:
		out = append(out, "Nothing is read yet, so there is no pack to make. Next: "+nextForUnread(b))
	case words.NothingFilledIn(b.Read.Tally):
		out = append(out, NothingYet)
	case len(b.Read.Books.Pieces) == 0 && len(b.Read.SettingsLines()) > 0:
		out = append(out, "No piece is read yet, so there is nothing to cost. Next: the lines above, into settings.toml.")
	case b.Month == 0:
		out = append(out, "Nothing to put right. No month has records of two tables yet, so there is no pack to make.")
	default:
		out = append(out, fmt.Sprintf("Nothing to put right. Next: %s makes the pack of %s.", b.ToType("month"),
			b.Month.Name()))
	}
	return append(append(out, words.RowsInAll(b.Read.Tally)), words.MoneyRead(b.Read.Money,
		b.Read.Books.Settings.Currency)...)
}

// NothingYet is said of books without a line of the owner's.
const NothingYet = "Nothing is filled in yet. Next: write down your first pieces, one line each, on Pieces."

// TellProblems prints all problems where people read.
func TellProblems(w terminal.Console, b *Books, all bool) {
	terminal.PrintLines(w.Err, w.ErrWide, ProblemLines(b, all))
}

// moneyJSON is the same as JSON, money with two decimals.
type moneyJSON struct {
	Read   money.Cents  `json:"read"`
	Of     money.Cents  `json:"of"`
	Unread []unreadJSON `json:"not_in_any_figure"`
}

type unreadJSON struct {
	File  string      `json:"file"`
	Sheet string      `json:"sheet,omitempty"`
	Money money.Cents `json:"money"`
}

func moneyOf(m intake.MoneyRead) moneyJSON {
	out := moneyJSON{Read: m.Read, Of: m.Of(), Unread: []unreadJSON{}}
	for _, u := range m.In {
		out.Unread = append(out.Unread, unreadJSON{u.File, u.Sheet, u.Cents})
	}
	return out
}

// FirstFew is up to ten of a list, and how many more there are.
func FirstFew(all []string) string {
	if n := len(all) - 10; n > 0 {
		return fmt.Sprintf("%s and %d more.", strings.Join(all[:10], ", "), n)
	}
	return strings.Join(all, ", ") + "."
}
