package intake

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/headers"
	"piecebook/ledger/intake/rows"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/money"
)

// RowText is what stands in the row of a place, as `column=text` lines in the
// order of the columns' names: the same wherever the columns stand and
// whatever the owner calls them. Empty where the place is no row of a table.
func (r *Result) RowText(at fault.Place) string {
	row := r.row(at)
	if row == nil {
		return ""
	}
	var lines []string
	for _, field := range slices.Sorted(maps.Keys(row.Block.Columns)) {
		if text := row.Raw(field); text != "" {
			lines = append(lines, field+"="+text)
		}
	}
	return strings.Join(lines, "\n")
}

// tableRows are the rows of a table on a sheet, found again by their numbers.
type tableRows struct {
	block *headers.Block
	at    map[int]int // places among the block's records; nil until one is asked for
}

// row is the row of a place; nil where that is no row of a table.
func (r *Result) row(at fault.Place) *rows.Row {
	for _, t := range r.rows[fault.Place{File: at.File, Sheet: at.Sheet}] {
		if t.at == nil {
			t.at = make(map[int]int, len(t.block.Records))
			for i, l := range t.block.Records {
				t.at[l.Number] = i
			}
		}
		if i, there := t.at[at.Row]; there {
			return &rows.Row{Block: t.block, Line: t.block.Records[i]}
		}
	}
	return nil
}

// Named is a list whose places name columns by the owner's own headers, where
// a row that was read has them: what looks across tables knows columns by the
// tables' names only.
func (r *Result) Named(list fault.List) fault.List {
	var out fault.List
	for _, p := range list.All() {
		if p.Place.Column != "" {
			if row := r.row(p.Place); row != nil && row.Block.Table.Field(p.Place.Column) != nil {
				p.Place.Column = row.Header(p.Place.Column)
			}
		}
		out.Add(p)
	}
	return out
}

// SettingsLines are the proposals as one block to paste into settings.toml.
func (r *Result) SettingsLines() []string { return settings.ProposalLines(r.Proposals, r.sections) }

// WithSettingsLines is the text of the settings.toml that was read with the proposals
// in it; ok is false where they must be pasted by hand.
func (r *Result) WithSettingsLines(text []byte) (out string, ok bool) {
	return settings.Written(text, r.Proposals)
}

// MoneyRead is how much of the money in the files is in the books, signs apart:
// what changed hands by the columns of money that are read, and what stands in
// rows, columns and sheets that are not. Sums and examples are in neither, nor
// what only describes a piece (asking, worth) or a channel's terms.
type MoneyRead struct {
	Read, Unread money.Cents
	In           []UnreadIn // where the unread is, the most first
	// NoAmount counts the filled cells of columns of money that are no amount: what they
	// hold is in neither.
	NoAmount int
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
			if !rec.Refused {
				m.Read += rec.atAsking
			}
			for _, c := range rec.Block.Columns {
				cents, is := r.heads.MoneyIn(rec.Sheet, rec.Block.Table, c, rec.Line)
				switch {
				case !is && columns.Flows(c.Field) && rec.Raw(c.Field.Name) != "" && rec.Block.Table.Name != "channels":
					m.NoAmount++
				case !is, rec.elsewhere:
				case rec.Refused || rec.unplaced || rec.Block.Other[c.Field.Name]:
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
