package intake

import (
	"fmt"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/receipts"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
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
		rec.r.problems.Add(fault.Problem{Code: fault.CodeSaleUndone, Note: true, Place: rec.At.At(strings.TrimSpace(header)),
			Found: text, MoneyCents: int64(s.Price),
			Why: fmt.Sprintf("Nothing is read out of this cell, and the row is read as a sale of %s.", s.Price.Grouped()),
			Fix: "If it was never sold, leave its sale blank; if the money went back, enter a refund, or a return where the " +
				"piece came back, in Sales. If it was sold, it may stay."})
		return
	}
}
