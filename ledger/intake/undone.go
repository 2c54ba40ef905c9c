package intake

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/receipts"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/money"
)

// undone are words of a column that is not read, such as Status, that say that a sale
// did not come about, or not yet.
var undone = []string{"returned", "return", "refunded", "refund", "cancelled", "canceled", "fell through", "fell thru",
	"deal fell through", "pending", "on hold", "hold", "not picked up", "no show", "void", "backed out",
	"for sale", "unsold", "not sold", "available", "listed"}

// undoneWithin are words that say so among others.
var undoneWithin = []string{"came back", "brought back", "brought it back", "refunded", "full refund", "money back",
	"never showed", "no show", "fell through", "fell thru", "backed out", "deal is off", "cancelled", "canceled"}

// saysUndone says that a cell tells of a sale undone: by its words, or by a yes or a day
// under a name such as Returned.
func saysUndone(header string, cell sheets.Cell) bool {
	text := strings.TrimRight(values.Fold(cell.Text), "!.")
	if slices.Contains(undone, text) || strings.HasPrefix(text, "hold ") || strings.HasPrefix(text, "on hold ") ||
		slices.ContainsFunc(undoneWithin, func(words string) bool { return receipts.Within(words, text) }) {
		return true
	}
	yes, is := values.YesNo(cell)
	return slices.Contains(undone, values.Fold(header)) && (is && yes || values.IsDate(cell))
}

// noteUndone notes a sale whose row says in a column that is not read, or in remarks, that
// it was undone.
func (rec *record) noteUndone(s *ledger.Sale) {
	if s.Type != ledger.SaleLine || rec.Refused {
		return
	}
	read := map[int]bool{}
	for _, c := range rec.Block.Columns {
		read[c.Index] = c.Field.Name != "description"
	}
	for i, header := range rec.Sheet.Lines[0].Cells {
		text := rec.Line.Text(i)
		if read[i] || text == "" || !saysUndone(header, rec.Sheet.Cell(rec.Line, i)) {
			continue
		}
		p := fault.Problem{Code: fault.CodeSaleUndone, Note: true, Place: rec.At.At(strings.TrimSpace(header)),
			Found: text, MoneyCents: int64(s.Price),
			Why: fmt.Sprintf("Nothing is read out of this cell, and the row is read as a sale of %s.", s.Price.Grouped()),
			Fix: "If it was never sold, leave its sale blank; if the money went back, enter a refund, or a return where the " +
				"piece came back, in Sales. If it was sold, it may stay."}
		sale, refund := *s, onlyRefund.MatchString(values.Fold(text)) || onlyRefund.MatchString(values.Fold(header))
		rec.r.afterSales = append(rec.r.afterSales, func() {
			if !rec.undoneInSales(&sale, refund) {
				rec.r.problems.Add(p)
			}
		})
		return
	}
}

// onlyRefund are words of a cell or a header that tell of money that went back, and of no piece.
var onlyRefund = regexp.MustCompile(`^(?:(?:partial|full)(?:ly)? )?refund(?:s|ed)?(?: amount)?$`)

// undoneInSales says that lines of Sales hold what the row of a sale says went back: what
// its own column of refunds names, or all of it. Where more than a refund is told, one must be a return.
func (rec *record) undoneInSales(s *ledger.Sale, refund bool) bool {
	back, _, returned := rec.r.wentBack(s)
	if back == 0 || !refund && !returned {
		return false
	}
	for i, header := range rec.Sheet.Lines[0].Cells {
		if !onlyRefund.MatchString(values.Fold(header)) {
			continue
		}
		if c, refusal := values.Money(rec.Sheet.Cell(rec.Line, i), rec.r.settings); refusal == nil && c != 0 {
			return c.Abs() == back
		}
	}
	return back == s.Price || back == s.Price+s.DeliveryCharged+s.SalesTax+s.MarketplaceTax
}

// wentBack is what the refunds and returns of a sale's pieces since its day come to, with the
// fees given back on them, and whether one of them is a return.
func (r *reading) wentBack(s *ledger.Sale) (back, fees money.Cents, returned bool) {
	for _, line := range r.books.Sales {
		if line.Type != ledger.Refund && line.Type != ledger.Return || line.On.Before(s.On) ||
			!slices.Equal(line.Pieces, s.Pieces) {
			continue
		}
		back += line.Price + line.DeliveryCharged + line.SalesTax + line.MarketplaceTax
		returned = returned || line.Type == ledger.Return
		for _, fee := range []*money.Cents{line.Fee, line.CardFee} {
			if fee != nil {
				fees += *fee
			}
		}
	}
	return back, fees, returned
}
