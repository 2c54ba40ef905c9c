package commands

import (
	"fmt"
	"path"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake"
	"piecebook/ledger/money"
)

// moneyLines is the last line of check: how much of the money in the files is in
// the books, in which currency, and where the rest is. None where there is no
// money.
func moneyLines(m intake.MoneyRead, currency string) []string {
	if m.Of() == 0 {
		return nil
	}
	line := fmt.Sprintf("Money read: %s of %s, in %s (currency in settings.toml)", m.Read.Grouped(),
		m.Of().Grouped(), currency)
	if m.Unread == 0 {
		return []string{line + "."}
	}
	var in []string
	for _, u := range m.In {
		in = append(in, unreadSheet(u))
	}
	return []string{fmt.Sprintf("%s; not in any figure: %s, in %s.", line, m.Unread.Grouped(), fault.Few(in))}
}

// unreadSheet is the name of a sheet, or of a plain file without its ending.
func unreadSheet(u intake.UnreadIn) string {
	if u.Sheet != "" {
		return u.Sheet
	}
	return strings.TrimSuffix(path.Base(u.File), path.Ext(u.File))
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
