package intake

import (
	"cmp"
	"slices"

	"piecebook/ledger/money"
)

// MoneyRead is how much of the money in the files is in the books, signs apart:
// what changed hands by the columns of money that are read, and what stands in
// rows, columns and sheets that are not. Sums and examples are in neither, nor
// what only describes a piece (asking, worth) or a channel's terms.
type MoneyRead struct {
	Read, Unread money.Cents
	In           []UnreadIn // where the unread is, the most first
}

// UnreadIn is the money of one sheet that is in no figure.
type UnreadIn struct {
	File, Sheet string
	Cents       money.Cents
}

// Of is all of it.
func (m MoneyRead) Of() money.Cents { return m.Read + m.Unread }

// moneyRead sums the money of all sheets up.
func (r *reading) moneyRead() (m MoneyRead) {
	unread := map[*TableTally]money.Cents{}
	for i, t := range r.tally {
		unread[t] = r.unread[i]
	}
	for _, records := range r.tables {
		for _, rec := range records {
			for _, c := range rec.block.Columns {
				cents, is := r.heads.MoneyIn(rec.sheet, rec.block.Table, c, rec.line)
				switch {
				case !is:
				case rec.refused || rec.unplaced || rec.block.Other[c.Field.Name]:
					unread[rec.tally] += cents
				default:
					m.Read += cents
				}
			}
		}
	}
	for _, t := range r.tally {
		if n := unread[t]; n != 0 {
			m.Unread += n
			m.In = append(m.In, UnreadIn{t.File, t.Sheet, n})
		}
	}
	slices.SortStableFunc(m.In, func(a, b UnreadIn) int {
		return cmp.Or(cmp.Compare(b.Cents, a.Cents), cmp.Compare(a.File, b.File), cmp.Compare(a.Sheet, b.Sheet))
	})
	return m
}
