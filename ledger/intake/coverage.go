package intake

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

// coverage reads a number above 0 of what the supply is shared by, which may
// stand after it as its unit, or the word all.
func (rec *record) coverage(field string, by ledger.ShareBy) (figure *big.Rat, all bool) {
	text := rec.raw(field)
	if strings.EqualFold(text, "all") {
		return nil, true
	}
	if rec.perUnit(field, text) {
		return nil, false
	}
	read := measure.ReadArea
	if by == ledger.ByHours || by == ledger.ByPieces {
		read = func(text string, style measure.Style, _ bool) (*big.Rat, *measure.Refusal) {
			return measure.Number(strings.TrimSpace(strings.TrimSuffix(strings.ToLower(text), string(by))), style)
		}
	}
	x := rec.unitted(field, read)
	if x != nil && x.Sign() <= 0 {
		rec.fail(field, fault.CodeNumberOutOfRange, "The coverage of a container must be above 0.",
			"Type what one container "+
				"does, such as 100, or all, or leave the cell blank.")
	}
	return x, false
}

// perUnit refuses what a supply does for each unit, in the cell (400 sq ft/gal)
// or by the column's name, with what its container does.
func (rec *record) perUnit(field, text string) bool {
	if text == "" {
		return false
	}
	of := rec.place(field).Column
	if _, _, said := measure.SplitPer(text); !said {
		figure, per, inHeader := columns.HeaderPer(of)
		if !inHeader {
			return false
		}
		text += figure + "/" + per.Name
	}
	_, per, _ := measure.SplitPer(text)
	holds := rec.raw("container")
	container, refusal := values.Amount(rec.cell("container"), rec.r.settings)
	if refusal != nil {
		container = measure.Amount{Bare: true}
	}
	fix := "Type what one container does, or all, or leave the cell blank."
	style := measure.Style{DecimalComma: rec.r.settings.DecimalComma &&
		!(rec.sheet.InBook && values.IsRaw(rec.raw(field)))}
	if does, _, ok := measure.CoveragePer(text, style, rec.r.settings.Metric(), container); ok {
		fix = fmt.Sprintf("Type what one container does: for %s that is %s.", holds, values.Written(does, rec.r.settings))
	}
	if named := rec.block.Columns[field].Header; columns.PerHeader(named) {
		fix += " Name the column coverage."
	}
	rec.fail(field, fault.CodeCoveragePerUnit, fmt.Sprintf("Coverage is what one whole container does, and this is "+
		"what one %s does.", per.Name), fix)
	return true
}
