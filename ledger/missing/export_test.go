package missing

import (
	"piecebook/ledger"
	"piecebook/ledger/costing"
)

// Lacking is every supply that the pieces finished or sold in the ledger's last
// month lack, of those pieces that have any, by day and piece.
func Lacking(l *costing.Ledger) []Lack {
	if len(l.Months) == 0 {
		return nil
	}
	_, lacking, _ := newLook(l, l.Months[len(l.Months)-1].Month).unwritten()
	return lacking
}

// UsuallyOff is how far coverages known from this usually are off, in percent; 0
// where nothing is estimated.
func UsuallyOff(known ledger.Basis) int64 { return usuallyOff[known] }
