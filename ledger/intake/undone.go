package intake

import (
	"fmt"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
)

// undone are words of a column that is not read, such as Status, that say that a sale
// did not come about, or not yet.
var undone = []string{"returned", "return", "refunded", "refund", "cancelled", "canceled", "fell through", "fell thru",
	"deal fell through", "pending", "on hold", "hold", "not picked up", "no show", "void", "backed out",
	"for sale", "unsold", "not sold", "available", "listed"}

// saysUndone says that a cell of a column that is not read tells of a sale undone: by
// its words, or by a yes or a day under a name such as Returned.
func saysUndone(header string, cell sheets.Cell) bool {
	text := strings.TrimRight(values.Fold(cell.Text), "!.")
	if slices.Contains(undone, text) || strings.HasPrefix(text, "hold ") || strings.HasPrefix(text, "on hold ") {
		return true
	}
	yes, is := values.YesNo(cell)
	return slices.Contains(undone, values.Fold(header)) && (is && yes || values.IsDate(cell))
}

// noteUndone notes a sale whose row says in a column that is not read that it was undone.
func (rec *record) noteUndone(s *ledger.Sale) {
	if s.Type != ledger.SaleLine || rec.Refused {
		return
	}
	read := map[int]bool{}
	for _, c := range rec.Block.Columns {
		read[c.Index] = true
	}
	for i, header := range rec.Sheet.Lines[0].Cells {
		text := rec.Line.Text(i)
		if read[i] || text == "" || !saysUndone(header, rec.Sheet.Cell(rec.Line, i)) {
			continue
		}
		rec.r.problems.Add(fault.Problem{Code: fault.CodeSaleUndone, Note: true, Place: rec.At.At(strings.TrimSpace(header)),
			Found: text, MoneyCents: int64(s.Price),
			Why: fmt.Sprintf("This column is not read, and the row is read as a sale of %s.", s.Price.Grouped()),
			Fix: "If it was never sold, leave its sale blank; if the money went back, enter a refund, or a return where the " +
				"piece came back, in Sales. If it was sold, it may stay."})
		return
	}
}
