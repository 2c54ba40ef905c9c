package formulas

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"

	"piecebook/ledger/kinds"
	ledgerkit "piecebook/ledger/testkit"
	"piecebook/ledger/testkit/bookgen"
	"piecebook/report/accountant"
	"piecebook/report/testkit"
	"piecebook/report/testkit/recalc"
	"piecebook/report/workbook"
)

// Goal: the kinds' sheets add up by their own formulas to what the kinds are
// ranked by. Method: worked out again from the sheets alone, over the sample and
// generated books.
func TestKindsSheetsWorkOut(t *testing.T) {
	formulas := 0
	for _, dir := range []string{filepath.Join("..", "..", "..", "sample"), ledgerkit.Folder(t, bookgen.Files(3)),
		ledgerkit.Folder(t, bookgen.Files(5)), ledgerkit.Folder(t, bookgen.Files(8))} {
		b, in := testkit.Opened(t, dir, 0), testkit.Input(t, dir, 0)
		book := &workbook.Book{}
		sheets := accountant.KindsSheets(in, kinds.Of(b.Ledger, kinds.Scope{}))
		var added []*workbook.Sheet
		for _, s := range sheets {
			added = append(added, book.Add(s.Name, s.Title, s.Columns...))
		}
		for i, s := range sheets {
			s.Fill(book, added[i])
		}
		wrong, n := recalc.Check(book)
		assert.Empty(t, wrong, dir)
		formulas += n
	}
	assert.Greater(t, formulas, 100)
}
