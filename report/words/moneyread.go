package words

import (
	"fmt"
	"path"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake"
)

// MoneyRead is the last line of check: how much of the money in the files is in
// the books, in which currency, and where the rest is. None where there is no
// money.
func MoneyRead(m intake.MoneyRead, currency string) []string {
	if m.Of() == 0 && m.NoAmount == 0 {
		return nil
	}
	line := fmt.Sprintf("Money read: %s of %s, in %s (currency in settings.toml)", m.Read.Grouped(),
		m.Of().Grouped(), currency)
	if m.Unread != 0 {
		var in []string
		for _, u := range m.In {
			in = append(in, unreadSheet(u))
		}
		line += fmt.Sprintf("; not in any figure: %s, in %s", m.Unread.Grouped(), fault.Few(in))
	}
	if m.NoAmount != 0 {
		line += fmt.Sprintf("; %d %s of money cannot be read as an amount", m.NoAmount,
			fault.Plural(m.NoAmount, "cell", "cells"))
	}
	return []string{line + "."}
}

// unreadSheet is the name of a sheet, or of a plain file without its ending.
func unreadSheet(u intake.UnreadIn) string {
	if u.Sheet != "" {
		return u.Sheet
	}
	return strings.TrimSuffix(path.Base(u.File), path.Ext(u.File))
}
