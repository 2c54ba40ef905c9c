package report

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
	"piecebook/report/page"
)

// cash is an amount as a cell.
func cash(c money.Cents) page.Cell { return page.Money(int64(c)) }

// maybe is an amount as a cell, empty where there is no value.
func maybe(c *money.Cents) page.Cell {
	if c == nil {
		return page.Empty()
	}
	return page.FullMoney(int64(*c))
}

// number is a fraction with fixed decimals, so that a column lines up; empty
// where there is none.
func number(x *big.Rat, decimals int) page.Cell {
	if x == nil {
		return page.Empty()
	}
	return page.Number(thousands(negative(money.Fixed(x, decimals))))
}

// thousands parts a number's whole digits as amounts have theirs: 1,807.1.
func thousands(s string) string {
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

// hoursCell is hours to the hundredth.
func hoursCell(x *big.Rat) page.Cell {
	if x == nil || x.Sign() == 0 {
		return page.Number(page.Dash)
	}
	return number(x, 2)
}

// hoursWords is hours in a sentence.
func hoursWords(x *big.Rat) string {
	s := money.AtMost(orZero(x), 2)
	if s == "1" {
		return "1 hour"
	}
	return s + " hours"
}

// count is a whole number as a cell.
func count(n int) page.Cell { return page.Number(fmt.Sprint(n)) }

// countOrDash is a whole number in a table of amounts, where nothing is a dash.
func countOrDash(n int) page.Cell {
	if n == 0 {
		return page.Number(page.Dash)
	}
	return count(n)
}

// ofHundred is a ratio in whole percent, under a head that says so.
func ofHundred(x *big.Rat) page.Cell {
	if x == nil {
		return page.Empty()
	}
	return number(new(big.Rat).Mul(x, big.NewRat(100, 1)), 0)
}

// negative sets a minus for a hyphen, which is too short to be seen.
func negative(s string) string {
	if rest, ok := strings.CutPrefix(s, "-"); ok {
		return "−" + rest
	}
	return s
}

// percent is a ratio as a percentage with one decimal.
func percent(x *big.Rat) string {
	if x == nil {
		return page.Dash
	}
	return thousands(negative(money.Fixed(new(big.Rat).Mul(x, big.NewRat(100, 1)), 1))) + " %"
}

// dayWords is a date in words: 9 March 2026.
func dayWords(d calendar.Date) string {
	return fmt.Sprintf("%d %s %d", d.Day, d.Month, d.Year)
}

// plural is a number with its noun.
func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// ordinal is 1st, 2nd, 3rd, 4th.
func ordinal(n int) string {
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

// listed joins words as a sentence has them.
func listed(words []string) string {
	switch len(words) {
	case 0:
		return ""
	case 1:
		return words[0]
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// capital begins words with a capital.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

// spoken is an amount within a sentence.
func (in *Input) spoken(c money.Cents) string {
	return page.Amount(int64(c), page.Sign(in.Month.Currency), true)
}

// pieceWords is a piece as a line names it: its description, else its kind.
func pieceWords(p *ledger.Piece) string {
	if p.Description == "" {
		return p.Kind
	}
	return p.Kind + ", " + p.Description
}

// mostSources is how many runs of rows are printed beside a line. Months of
// work can stand behind an overhead; `why` tells them all.
const mostSources = 8

// unbroken keeps a unit's words on one line.
func unbroken(s string) string { return strings.ReplaceAll(s, " ", "\u00a0") }

// withoutBlank drops the named columns where they have nothing to say: no
// amount but zero. A column that nobody reads is not printed.
func withoutBlank(t page.Table, heads ...string) page.Table {
	for c := len(t.Columns) - 1; c >= 0; c-- {
		says := func(r page.Row) bool { return c < len(r.Cells) && (r.Cells[c].Cents != 0 || r.Cells[c].Text != "") }
		if !slices.Contains(heads, t.Columns[c].Head) || slices.ContainsFunc(t.Rows, says) {
			continue
		}
		t.Columns = slices.Delete(slices.Clone(t.Columns), c, c+1)
		for i, r := range t.Rows {
			if c < len(r.Cells) {
				t.Rows[i].Cells = slices.Delete(slices.Clone(r.Cells), c, c+1)
			}
		}
	}
	return t
}

// sources is places as printed beside a figure: rows of one sheet together,
// rows that follow each other as a run. 'uses.csv:3, 7-9; sales.csv:2'.
func sources(places []fault.Place) string { return listSources(places, mostSources) }

// allSources is sources with every run of rows.
func allSources(places []fault.Place) string { return listSources(places, len(places)) }

func listSources(places []fault.Place, most int) string {
	places = slices.Clone(places)
	slices.SortFunc(places, fault.Place.Compare)
	places = slices.CompactFunc(places, func(a, b fault.Place) bool {
		return a.File == b.File && a.Sheet == b.Sheet && a.Row == b.Row
	})
	var b strings.Builder
	runs := 0
	for i := 0; i < len(places); {
		end := i + 1
		for end < len(places) && sameSheet(places[end], places[i]) && places[end].Row == places[end-1].Row+1 {
			end++
		}
		if runs++; runs > most {
			fmt.Fprintf(&b, " and %s more", plural(len(places)-i, "row", "rows"))
			break
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
	return b.String()
}

func sameSheet(a, b fault.Place) bool { return a.File == b.File && a.Sheet == b.Sheet }

// median is the middle one, or half-even between the two in the middle; false
// of none.
func median(of []money.Cents) (money.Cents, bool) {
	if len(of) == 0 {
		return 0, false
	}
	s := slices.Clone(of)
	slices.Sort(s)
	middle := len(s) / 2
	if len(s)%2 == 1 {
		return s[middle], true
	}
	return money.Round(big.NewRat(int64(s[middle-1]+s[middle]), 2)), true
}

// medianRat is the middle one of fractions, or the mean of the two there.
func medianRat(of []*big.Rat) *big.Rat {
	if len(of) == 0 {
		return nil
	}
	s := slices.Clone(of)
	slices.SortFunc(s, func(a, b *big.Rat) int { return a.Cmp(b) })
	middle := len(s) / 2
	if len(s)%2 == 1 {
		return s[middle]
	}
	sum := new(big.Rat).Add(s[middle-1], s[middle])
	return sum.Quo(sum, big.NewRat(2, 1))
}

// byAmount orders larger amounts, whatever their sign, first.
func byAmount(a, b money.Cents) int { return cmp.Compare(b.Abs(), a.Abs()) }
