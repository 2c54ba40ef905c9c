// Package cells makes page cells of amounts, numbers, hours and counts.
package cells

import (
	"fmt"
	"math/big"
	"slices"

	"piecebook/ledger/money"
	"piecebook/report/page"
	"piecebook/report/words"
)

// Money is an amount as a cell.
func Money(c money.Cents) page.Cell { return page.Money(int64(c)) }

// Full is an amount as a cell whose zero prints as 0.00.
func Full(c money.Cents) page.Cell { return page.FullMoney(int64(c)) }

// Bare is an amount in a sentence without the currency's sign.
func Bare(c money.Cents, of page.Ref) page.Cell { return page.Spoken(c.Grouped(), int64(c)).Opens(of) }

// Optional is an amount as a cell, empty where there is no value.
func Optional(c *money.Cents) page.Cell {
	if c == nil {
		return page.Empty()
	}
	return Full(*c)
}

// Number is a fraction with fixed decimals, so that a column lines up; empty
// where there is none.
func Number(x *big.Rat, decimals int) page.Cell {
	if x == nil {
		return page.Empty()
	}
	return page.Number(words.Thousands(words.Negative(money.Fixed(x, decimals))))
}

// Hours is hours to the hundredth.
func Hours(x *big.Rat) page.Cell {
	if x == nil || x.Sign() == 0 {
		return page.Number(page.Dash)
	}
	return Number(x, 2)
}

// Count is a whole number as a cell.
func Count(n int) page.Cell { return page.Number(fmt.Sprint(n)) }

// CountOrDash is a whole number in a table of amounts, where nothing is a dash.
func CountOrDash(n int) page.Cell {
	if n == 0 {
		return page.Number(page.Dash)
	}
	return Count(n)
}

// WholePercent is a ratio in whole percent, under a head that says so.
func WholePercent(x *big.Rat) page.Cell {
	if x == nil {
		return page.Empty()
	}
	return Number(new(big.Rat).Mul(x, big.NewRat(100, 1)), 0)
}

// WithoutBlank drops the named columns where they have nothing to say: no
// amount but zero. A column that nobody reads is not printed.
func WithoutBlank(t page.Table, heads ...string) page.Table {
	for c := len(t.Columns) - 1; c >= 0; c-- {
		says := func(r page.Row) bool {
			return c < len(r.Cells) && (r.Cells[c].Cents != 0 || r.Cells[c].Text != "" || r.Cells[c].Drawn != nil)
		}
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
