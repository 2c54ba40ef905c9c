package rows

import (
	"fmt"
	"math/big"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/measure"
)

// Coverage reads a number above 0 of what the supply is shared by, which may
// stand after it as its unit, or the word all.
func (row *Row) Coverage(field string, by ledger.ShareBy) (figure *big.Rat, all bool) {
	text := row.Raw(field)
	if strings.EqualFold(text, "all") {
		return nil, true
	}
	if row.perUnit(field, text) {
		return nil, false
	}
	read := measure.ReadArea
	if by == ledger.ByHours || by == ledger.ByPieces {
		read = func(text string, style measure.Style, _ bool) (*big.Rat, *measure.Refusal) {
			return measure.Number(strings.TrimSpace(strings.TrimSuffix(strings.ToLower(text), string(by))), style)
		}
	}
	x := row.Unitted(field, read)
	if x != nil && x.Sign() <= 0 {
		row.Fail(field, fault.CodeNumberOutOfRange, "The coverage of a container must be above 0.",
			"Type what one container "+
				"does, such as 100, or all, or leave the cell blank.")
	}
	return x, false
}

// perUnit refuses what a supply does for each unit, in the cell (400 sq ft/gal)
// or by the column's name, with what its container does.
func (row *Row) perUnit(field, text string) bool {
	if text == "" {
		return false
	}
	of := row.Place(field).Column
	if _, _, said := measure.SplitPer(text); !said {
		figure, per, inHeader := columns.HeaderPer(of)
		if !inHeader {
			return false
		}
		text += figure + "/" + per.Name
	}
	_, per, _ := measure.SplitPer(text)
	holds := row.Raw("container")
	container, refusal := values.Amount(row.Cell("container"), row.r.settings)
	if refusal != nil {
		container = measure.Amount{Bare: true}
	}
	fix := "Type what one container does, or all, or leave the cell blank."
	style := measure.Style{DecimalComma: row.r.settings.DecimalComma &&
		!(row.Sheet.InBook && values.IsRaw(row.Raw(field)))}
	if does, _, ok := measure.CoveragePer(text, style, row.r.settings.Metric(), container); ok {
		fix = fmt.Sprintf("Type what one container does: for %s that is %s.", holds, values.Written(does, row.r.settings))
	}
	if named := row.Block.Columns[field].Header; columns.PerHeader(named) {
		fix += " Name the column coverage."
	}
	row.Fail(field, fault.CodeCoveragePerUnit, fmt.Sprintf("Coverage is what one whole container does, and this is "+
		"what one %s does.", per.Name), fix)
	return true
}
