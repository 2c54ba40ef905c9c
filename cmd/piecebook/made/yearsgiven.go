package made

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/calendar"
	"piecebook/ledger/closing"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/ledger/taxyear"
	"piecebook/report/figuresjson"
	"piecebook/report/words"
)

// handoverPrefix is what the folder to hand over is called before its year.
const handoverPrefix = "handover-"

// remark says something of what was given out for the preparer, on the year's
// pages and in the terminal.
func (t *TaxYear) remark(all []taxyear.Missing) {
	t.In.Tax.Remarks = append(t.In.Tax.Remarks, all...)
	for _, m := range all {
		t.given = append(t.given, words.YearNote(m.Note))
	}
}

// compare adds what was given out of the year and would come to other figures
// now, and how a closed year was corrected later. What the year's own folders hold is
// shown in the terminal alone.
func compare(c *cli.Call, t *TaxYear) (err error) {
	y := t.In.Tax
	if t.since, err = SinceMade(c, t.Books); err != nil {
		return err
	}
	if changed := otherwise(t.since, y.Year); len(changed) > 0 {
		t.remark([]taxyear.Missing{inIncome(0, words.OtherwiseInYear(changed))})
	}
	later, err := correctedLater(c, t.Books, y.Year)
	if err != nil {
		return err
	}
	t.remark(later)
	is, err := figuresjson.Year(y)
	if err != nil {
		return err
	}
	for _, folder := range []string{fmt.Sprint(y.Year), fmt.Sprint(handoverPrefix, y.Year)} {
		was, err := cli.ReadBounded(filepath.Join(c.OutDir(), folder, cli.FiguresFile), cli.FiguresBytesMax)
		if err != nil {
			continue // none was made, or it cannot be read: the next making writes it again
		}
		if amounts, pieces := closing.Differing(was, is); len(amounts) > 0 || pieces > 0 {
			t.given = append(t.given, words.YearOtherwise(y.Year, folder == fmt.Sprint(y.Year), amounts, pieces))
		}
	}
	return nil
}

// TellGivenOut says where people read what was given out and does not hold any more.
func (t *TaxYear) TellGivenOut(w terminal.Console) {
	terminal.PrintLines(w.Err, w.ErrWide, Joined(t.given, GivenOutLines(t.Books, t.since)))
}

// Joined is lines, and those of others that are not among them.
func Joined(lines, others []string) []string {
	out := slices.Clone(lines)
	for _, line := range others {
		if !slices.Contains(lines, line) {
			out = append(out, line)
		}
	}
	return out
}

// YearsGivenOut is what of the years whose reports were made, or handed over, does
// not hold any more; of a year that still goes on there is more each day. Books with
// errors have no years to compare.
func YearsGivenOut(c *cli.Call, now *cli.Books) ([]string, error) {
	entries, err := os.ReadDir(c.OutDir())
	if err != nil || now.Problems.HasErrors() {
		return nil, nil // nothing was made yet
	}
	var years []calendar.Month
	for _, e := range entries {
		if december, err := cli.ReadYear(strings.TrimPrefix(e.Name(), handoverPrefix)); err == nil && december != 0 &&
			december <= now.Month {
			years = append(years, december)
		}
	}
	slices.Sort(years)
	var out []string
	for _, december := range slices.Compact(years) {
		b, err := c.OpenClosed(december)
		if err != nil {
			return nil, err
		}
		if b.Problems.HasErrors() || b.Ledger == nil || b.Ledger.Months[0].Month > december {
			continue
		}
		t, err := yearOf(c, b)
		if err != nil {
			continue // there are no tables for it any more
		}
		if err := compare(c, t); err != nil {
			return nil, err
		}
		out = Joined(out, t.given)
	}
	return out, nil
}

// otherwise is the months of a calendar year that were made and would come to
// other figures now.
func otherwise(all []closing.Since, year int) []closing.Since {
	return slices.DeleteFunc(slices.Clone(all), func(s closing.Since) bool { return !s.Money() || s.Month.Year() != year })
}

// correctedLater says for the preparer how a closed year was corrected after its
// last month was closed: in later closed months, and in the first open one.
func correctedLater(c *cli.Call, b *cli.Books, year int) ([]taxyear.Missing, error) {
	if b.AsOf == nil {
		return nil, nil
	}
	closed, err := closing.Read(b.Photos)
	if err != nil {
		return nil, err
	}
	var all []*closing.Corrections
	for _, m := range closed {
		if m.Month > b.Month && m.Corrections != nil {
			all = append(all, m.Corrections)
		}
	}
	if now, err := c.Open(0); err != nil {
		return nil, err
	} else if now.Ledger != nil && !now.Problems.HasErrors() {
		if waiting := now.Pending(); waiting != nil {
			all = append(all, waiting)
		}
	}
	var out []taxyear.Missing
	for _, x := range all {
		if slices.Contains(x.Years(), year) {
			net := figures.Effect(figures.OfStatement, figures.LineNetProfit, x.OfYear(year))
			out = append(out, inIncome(net, words.CorrectedLater(year, x.Month(), net)))
		}
	}
	return out, nil
}

// overYears says for the preparer where corrections reach back over a tax year.
func overYears(all []*closing.Corrections) []taxyear.Missing {
	var out []taxyear.Missing
	for _, c := range all {
		for _, year := range c.Years() {
			if year < c.Month().Year() {
				net := figures.Effect(figures.OfStatement, figures.LineNetProfit, c.OfYear(year))
				out = append(out, inIncome(net, words.OverTaxYear(year, net)))
			}
		}
	}
	return out
}

// inIncome is a remark that leads to the pages of the year's income.
func inIncome(net money.Cents, text string) taxyear.Missing {
	return taxyear.Missing{Note: taxyear.Note{Says: taxyear.InWords, Of: []any{text}}, Cents: net.Abs(),
		Section: taxyear.SecIncome}
}
