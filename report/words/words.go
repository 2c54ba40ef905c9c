package words

import (
	"fmt"
	"math/big"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
	"piecebook/report/page"
)

// Thousands parts a number's whole digits as amounts have theirs: 1,807.1. A
// fraction, which is of small numbers, stays as it is: 21/32.
func Thousands(s string) string {
	if strings.Contains(s, "/") {
		return s
	}
	whole, decimals, parted := strings.Cut(s, ".")
	digits := strings.TrimPrefix(whole, "−")
	sign := strings.TrimSuffix(whole, digits)
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + "," + digits[i:]
	}
	if parted {
		digits += "." + decimals
	}
	return sign + digits
}

// Hours is hours in a sentence.
func Hours(x *big.Rat) string {
	s := money.AtMost(money.OrZero(x), 2)
	if s == "1" {
		return "1 hour"
	}
	return s + " hours"
}

// Negative sets a minus for a hyphen, which is too short to be seen.
func Negative(s string) string {
	if rest, ok := strings.CutPrefix(s, "-"); ok {
		return "−" + rest
	}
	return s
}

// Percent is a ratio as a percentage with one decimal.
func Percent(x *big.Rat) string {
	if x == nil {
		return page.Dash
	}
	return Thousands(Negative(money.Fixed(new(big.Rat).Mul(x, big.NewRat(100, 1)), 1))) + " %"
}

// Plural is a number with its noun.
func Plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// Ordinal is 1st, 2nd, 3rd, 4th.
func Ordinal(n int) string {
	end := "th"
	if n%100 < 11 || n%100 > 13 {
		switch n % 10 {
		case 1:
			end = "st"
		case 2:
			end = "nd"
		case 3:
			end = "rd"
		}
	}
	return fmt.Sprintf("%d%s", n, end)
}

// List joins words as a sentence has them.
func List(words []string) string {
	switch len(words) {
	case 0:
		return ""
	case 1:
		return words[0]
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// Capital begins words with a capital.
func Capital(s string) string { return firstLetter(s, unicode.ToUpper) }

// Uncapital begins words with a small letter, to stand within a sentence.
func Uncapital(s string) string { return firstLetter(s, unicode.ToLower) }

// firstLetter turns the first letter; a blank text, and a byte that is no letter,
// stay what they are.
func firstLetter(s string, turn func(rune) rune) string {
	r, n := utf8.DecodeRuneInString(s)
	if r == utf8.RuneError {
		return s
	}
	return string(turn(r)) + s[n:]
}

// Piece is a piece as a line names it: its kind and its description, which
// may name the kind itself.
func Piece(p *ledger.Piece) string {
	switch {
	case p.Description == "":
		return p.Kind
	case strings.Contains(apart(p.Description), apart(p.Kind)):
		return p.Description
	}
	return p.Kind + ", " + p.Description
}

// apart is text in small letters with a space on both sides of each word.
func apart(text string) string {
	return " " + strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	}), " ") + " "
}

// briefPiece is how many letters of a piece's kind and description one line of
// a table has room for.
const briefPiece = 34

// PieceBrief is a piece where it has one line of a table: with its description
// where that has room too, whole or not at all.
func PieceBrief(p *ledger.Piece) string {
	if whole := Piece(p); utf8.RuneCountInString(whole) <= briefPiece {
		return whole
	}
	return p.Kind
}

// mostSources is how many runs of rows are printed beside a line. Months of
// work can stand behind shop costs; `why` tells them all.
const mostSources = 8

// Unbroken keeps a unit's words on one line.
func Unbroken(s string) string { return strings.ReplaceAll(s, " ", "\u00a0") }

// Sources is places as printed beside a figure: rows of one sheet together,
// rows that follow each other as a run. 'uses.csv:3, 7-9; sales.csv:2'.
func Sources(places []fault.Place) string { return listSources(places, mostSources) }

// AllSources is sources with every run of rows.
func AllSources(places []fault.Place) string { return listSources(places, len(places)) }

// Letter is the nth of the letters that stand for records: a to z, aa, ab.
func Letter(n int) string {
	if n < 26 {
		return string(rune('a' + n))
	}
	return Letter(n/26-1) + Letter(n%26)
}

// BriefSources is sources in at most so many letters where naming fewer rows, or
// only counting them, gets it there.
func BriefSources(places []fault.Place, letters int) string {
	rows := rowsOnce(places)
	for most := mostSources; most > 0; most-- {
		s, left := runsOfRows(rows, most)
		if left > 0 {
			s += fmt.Sprintf(", %d more", left)
		}
		if len([]rune(s)) <= letters || left == 0 && most == 1 {
			return s
		}
	}
	if !sameSheet(rows[0], rows[len(rows)-1]) {
		return fmt.Sprintf("%d rows of several tables", len(rows))
	}
	sheet := rows[0]
	sheet.Row = 0
	return fmt.Sprintf("%s, %d rows", sheet.Short(), len(rows))
}

func listSources(places []fault.Place, most int) string {
	s, left := runsOfRows(rowsOnce(places), most)
	if left > 0 {
		s += fmt.Sprintf(" and %s more", Plural(left, "row", "rows"))
	}
	return s
}

// runsOfRows names so many runs of rows that rowsOnce gave, and says how many
// rows are left.
func runsOfRows(places []fault.Place, most int) (named string, left int) {
	var b strings.Builder
	runs := 0
	for i := 0; i < len(places); {
		end := i + 1
		for end < len(places) && sameSheet(places[end], places[i]) && places[end].Row == places[end-1].Row+1 {
			end++
		}
		if runs++; runs > most {
			return b.String(), len(places) - i
		}
		switch {
		case i > 0 && sameSheet(places[i], places[i-1]):
			fmt.Fprintf(&b, ", %d", places[i].Row)
		case i > 0:
			b.WriteString("; " + places[i].Short())
		default:
			b.WriteString(places[i].Short())
		}
		if end-i > 1 {
			fmt.Fprintf(&b, "-%d", places[end-1].Row)
		}
		i = end
	}
	return b.String(), 0
}

// rowsOnce is places in order, each row once.
func rowsOnce(places []fault.Place) []fault.Place {
	if eachOnce(places) {
		return places // as nearly always
	}
	seen := map[fault.Place]bool{} // the same rows stand beside many postings: sorting all would take long
	var out []fault.Place
	for _, p := range places {
		p.Column = ""
		if !seen[p] {
			seen[p] = true
			out = append(out, p)
		}
	}
	slices.SortFunc(out, fault.Place.Compare)
	return out
}

// eachOnce says that places are in order already, each row once.
func eachOnce(places []fault.Place) bool {
	for i := 1; i < len(places); i++ {
		a, b := places[i-1], places[i]
		if a.Compare(b) >= 0 || sameSheet(a, b) && a.Row == b.Row {
			return false
		}
	}
	return true
}

func sameSheet(a, b fault.Place) bool { return a.File == b.File && a.Sheet == b.Sheet }

// Trip is what a trip was for and where it went, tripFor whose it was.
func Trip(x ledger.Trip) string {
	if strings.Contains(strings.ToLower(x.Purpose), strings.ToLower(x.To)) {
		return x.Purpose // where it says the place itself, or there is none
	}
	return x.Purpose + ", to " + x.To
}

func TripFor(x ledger.Trip) string {
	if len(x.Pieces) == 0 {
		return "the shop"
	}
	return strings.Join(x.Pieces, ", ")
}

// Note is a note with what stands there before it.
func Note(n fault.Problem) string {
	if n.Found == "" {
		return n.Why
	}
	return fault.Quoted(n.Found) + ": " + n.Why
}

// ToDo is what a note asks for where its Why is not beside it: it begins with what it
// is about.
func ToDo(n fault.Problem) string {
	switch {
	case n.Fix == "":
		return Note(n)
	case n.About == "":
		return n.Fix
	}
	return n.About + ". " + n.Fix
}

// Place is a place beside a note, its column too.
func Place(p fault.Place) string {
	if p == (fault.Place{}) {
		return ""
	}
	if p.Column != "" {
		return p.Short() + ", " + p.Column
	}
	return p.Short()
}

// CameBy says how a piece came, to be followed by the day.
var CameBy = map[ledger.How]string{ledger.Bought: "bought", ledger.Free: "got free", ledger.Traded: "taken in trade",
	ledger.Own: "the household's own, taken in", ledger.Client: "brought in"}

// Basis says how sure a share is.
var Basis = map[ledger.Basis]string{
	ledger.Counted: "counted", ledger.Measured: "measured", ledger.FromOwn: "own", ledger.FromBuying: "bought",
	ledger.Stated: "stated", ledger.Starting: "starting", ledger.UsedUp: "used up", ledger.NoBasis: page.Dash}

// BasisMeans explains the words of Basis.
var BasisMeans = map[ledger.Basis]string{
	ledger.Counted: "what was left was counted", ledger.Measured: "the amount was written down at its use",
	ledger.FromOwn:    "from what the shop's earlier counts show a container does",
	ledger.FromBuying: "from when it was bought again",
	ledger.Stated:     "from what the Supplies table says a container does",
	ledger.Starting:   "from what is usual for its group", ledger.UsedUp: "the month's work took all of it"}

// BasesMean is the words of the given bases with what they mean, from the surest
// to the least sure; blank for none.
func BasesMean(of func(ledger.Basis) bool) string {
	var out []string
	for _, b := range BySureness {
		if of(b) {
			out = append(out, Basis[b]+" ("+BasisMeans[b]+")")
		}
	}
	return strings.Join(out, ", ")
}

// BySureness is the bases from the surest to the least sure.
var BySureness = []ledger.Basis{ledger.Counted, ledger.Measured, ledger.FromOwn, ledger.FromBuying, ledger.Stated,
	ledger.Starting, ledger.UsedUp}

// Remainder says whether a channel's statement is explained.
func Remainder(rest money.Cents) string {
	if rest == 0 {
		return "Nothing is left"
	}
	return "Not explained"
}

// NetName is what a net figure is called.
func NetName(c money.Cents) string {
	if c < 0 {
		return "net loss"
	}
	return "net profit"
}

// After is words with what stands between them and what is before; blank where
// there are none.
func After(between, words string) string {
	if words == "" {
		return ""
	}
	return between + words
}

// Enclosed is words between two others; blank where there are none.
func Enclosed(before, words, after string) string {
	if words == "" {
		return ""
	}
	return before + words + after
}
