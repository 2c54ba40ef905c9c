package figures

import (
	"math/big"
	"slices"
	"sort"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/money"
)

// Index is a costed ledger's postings gone through once, each counted in every
// line it belongs to, by month and subject. The figures of any period are sums
// over it. It must not be used once the ledger has been changed, nor by several at once.
type Index struct {
	l        *costing.Ledger
	all      tally // of every posting
	shop     tally // of those of no piece
	pieces   map[string]*life
	supplies map[string]*tally
	groups   map[string]*tally // of expenses
	// corrected is the corrections to closed months, which are in the others
	// too, by piece; a blank one is the shop's.
	corrected map[string]*tally
	stays     map[string]bool
	hours     [][]costing.PieceHours // see HoursByPiece
	hits      map[kind][]hit
	known     map[calendar.Month]map[string]*Piece // asked for so far, by the period's end
}

// life is one piece's postings.
type life struct {
	tally    tally
	supplies []*ledger.Posting // what supplies put into it
	hours    []monthHours
	events   []calendar.Month // of its sales, returns and removals
}

type monthHours struct {
	month calendar.Month
	hours *big.Rat
}

// tally is cents by month and line, in the order of the months.
type tally []entry

type entry struct {
	month calendar.Month
	line  int // its place in the table
	cents money.Cents
}

// kind is all that rules ask of a posting.
type kind struct {
	from, to ledger.Account
	reason   ledger.Reason
}

// hit is a line that a kind of posting counts in.
type hit struct {
	line int
	sign Sign
}

// NewIndex goes through a ledger's postings.
func NewIndex(l *costing.Ledger) *Index {
	x := &Index{l: l, pieces: map[string]*life{}, supplies: map[string]*tally{}, groups: map[string]*tally{},
		corrected: map[string]*tally{},
		stays:     l.Books.Stays(), hits: map[kind][]hit{}, known: map[calendar.Month]map[string]*Piece{}}
	each(l, func(p *ledger.Posting) {
		mine := &x.shop
		if p.Piece != "" {
			life := x.life(p.Piece)
			mine = &life.tally
			if p.To == ledger.Pieces && p.Supply != "" {
				life.supplies = append(life.supplies, p)
			}
		}
		for _, h := range x.hitsOf(p) {
			x.count(p, h, mine)
		}
	})
	x.records()
	return x
}

// each calls f with every posting of a ledger, by month.
func each(l *costing.Ledger, f func(*ledger.Posting)) {
	for i := range l.Before.Postings {
		f(&l.Before.Postings[i])
	}
	for _, m := range l.Months {
		for i := range m.Postings {
			f(&m.Postings[i])
		}
	}
}

// hitsOf is the lines that a posting counts in. Lines of a tax year alone have
// conditions that are judged there.
func (x *Index) hitsOf(p *ledger.Posting) []hit {
	k := kind{p.From, p.To, p.Reason}
	found, known := x.hits[k]
	if !known {
		for i := range Lines {
			if Lines[i].Of&^(OfTaxYear|OfChannel|OfPayout) == 0 {
				continue
			}
			if sign := Lines[i].Sign(p); sign != 0 {
				found = append(found, hit{i, sign})
			}
		}
		x.hits[k] = found
	}
	return found
}

// count counts a posting in one line, for each subject it is of; mine is its
// piece's tally, or the shop's.
func (x *Index) count(p *ledger.Posting, h hit, mine *tally) {
	cents := p.Cents * money.Cents(h.sign)
	x.all.add(p.Month, h.line, cents)
	mine.add(p.Month, h.line, cents)
	if p.Supply != "" && Lines[h.line].Of&OfShelf != 0 {
		made(x.supplies, p.Supply).add(p.Month, h.line, cents)
	}
	if Lines[h.line].ByGroup {
		made(x.groups, p.Group).add(p.Month, h.line, cents)
	}
	if p.How.Method == ledger.Corrected {
		made(x.corrected, p.Piece).add(p.Month, h.line, cents)
	}
}

func (x *Index) life(piece string) *life { return made(x.pieces, piece) }

// made is a map's entry, made where there is none.
func made[T any](m map[string]*T, name string) *T {
	if m[name] == nil {
		m[name] = new(T)
	}
	return m[name]
}

// records adds what is known of pieces from records, not postings.
func (x *Index) records() {
	b := x.l.Books
	x.hours = costing.HoursByPiece(b)
	for i, split := range x.hours {
		for _, of := range split {
			mine := x.life(of.Piece)
			mine.hours = append(mine.hours, monthHours{b.Hours[i].On.InMonth(), of.Hours})
		}
	}
	for s := range ledger.Each(b.Sales) {
		if s.Type != ledger.SaleLine && s.Type != ledger.Return {
			continue
		}
		for _, id := range s.Pieces {
			mine := x.life(id)
			mine.events = append(mine.events, s.On.InMonth())
		}
	}
	for i := range b.Removals {
		mine := x.life(b.Removals[i].Piece)
		mine.events = append(mine.events, b.Removals[i].On.InMonth())
	}
}

// HoursByPiece is costing.HoursByPiece of the ledger's books.
func (x *Index) HoursByPiece() [][]costing.PieceHours { return x.hours }

// add adds cents to a month's line. Months come in order.
func (t *tally) add(m calendar.Month, line int, c money.Cents) {
	for i := len(*t) - 1; i >= 0 && (*t)[i].month == m; i-- {
		if (*t)[i].line == line {
			(*t)[i].cents += c
			return
		}
	}
	*t = append(*t, entry{m, line, c})
}

// of is the tally's entries of the months from..to.
func (t tally) of(from, to calendar.Month) tally {
	first := sort.Search(len(t), func(i int) bool { return t[i].month >= from })
	last := sort.Search(len(t), func(i int) bool { return t[i].month > to })
	return t[first:max(first, last)]
}

// sums is cents for every line of the table.
type sums []money.Cents

// between sums the lines that have rules over the months from..to, whatever
// span they have by the table, and completes those that add up others.
func (t tally) between(from, to calendar.Month) sums {
	out := make(sums, len(Lines))
	for _, e := range t.of(from, to) {
		out[e.line] += e.cents
	}
	out.complete()
	return out
}

// over sums each line over its span by the table.
func (t tally) over(from, to calendar.Month) sums {
	out := make(sums, len(Lines))
	for _, e := range t.of(0, to) {
		if Lines[e.line].Covers(e.month, from, to) {
			out[e.line] += e.cents
		}
	}
	out.complete()
	return out
}

// complete works out the lines that add up others, which stand above them.
func (s sums) complete() {
	for i, parts := range terms {
		for _, t := range parts {
			if t.less {
				s[i] -= s[t.at]
			} else {
				s[i] += s[t.at]
			}
		}
	}
}

// get is a line's cents.
func (s sums) get(of Scope, id ID) money.Cents { return s[index(of, id)] }

// plus adds other sums, each with a sign.
func (s sums) plus(o sums, sign Sign) sums {
	out := slices.Clone(s)
	for i := range o {
		out[i] += money.Cents(sign) * o[i]
	}
	return out
}
