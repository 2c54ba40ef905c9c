package costing

import (
	"cmp"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
)

// index holds the books by month and by name. All lists are sorted by what
// the records say, so that file and row order can never change a figure.
type index struct {
	b         *ledger.Books
	piece     map[string]*ledger.Piece
	lotPieces map[string][]string
	supplies  []string // by name
	supply    map[string]*ledger.Supply
	purchases map[string][]ledger.Purchase // by supply, in layer order
	counts    map[calendar.Month]map[string][]ledger.Count
	channels  map[string][]ledger.Channel // by channel, by date
	uses      map[calendar.Month][]ledger.Use
	parts     map[calendar.Month][]ledger.Part
	hours     map[calendar.Month][]ledger.Hours
	trips     map[calendar.Month][]ledger.Trip
	expenses  map[calendar.Month][]ledger.Expense
	equipment map[calendar.Month][]ledger.Equipment
	sales     map[calendar.Month][]ledger.Sale
	moves     map[calendar.Month][]ledger.Move
	removals  map[calendar.Month][]ledger.Removal
	income    map[calendar.Month][]ledger.OtherIncome
	taxPaid   map[calendar.Month][]ledger.TaxPaid
	pieces    map[calendar.Month][]*ledger.Piece // that came in the month
}

func newIndex(b *ledger.Books) *index {
	ix := &index{
		b:         b,
		piece:     map[string]*ledger.Piece{},
		lotPieces: map[string][]string{},
		supply:    map[string]*ledger.Supply{},
		purchases: map[string][]ledger.Purchase{},
		counts:    map[calendar.Month]map[string][]ledger.Count{},
		channels:  map[string][]ledger.Channel{},
		pieces:    map[calendar.Month][]*ledger.Piece{},
		uses:      byMonth(b.Uses, func(r ledger.Use) calendar.Date { return r.On }),
		parts:     byMonth(b.Parts, func(r ledger.Part) calendar.Date { return r.On }),
		hours:     byMonth(b.Hours, func(r ledger.Hours) calendar.Date { return r.On }),
		trips:     byMonth(b.Trips, func(r ledger.Trip) calendar.Date { return r.On }),
		expenses:  byMonth(b.Expenses, func(r ledger.Expense) calendar.Date { return r.On }),
		equipment: byMonth(b.Equipment, func(r ledger.Equipment) calendar.Date { return r.On }),
		sales:     byMonth(b.Sales, func(r ledger.Sale) calendar.Date { return r.On }),
		moves:     byMonth(b.Moves, func(r ledger.Move) calendar.Date { return r.On }),
		removals:  byMonth(b.Removals, func(r ledger.Removal) calendar.Date { return r.On }),
		income:    byMonth(b.OtherIncome, func(r ledger.OtherIncome) calendar.Date { return r.On }),
		taxPaid:   byMonth(b.TaxPaid, func(r ledger.TaxPaid) calendar.Date { return r.On }),
	}
	ix.readPieces()
	ix.readSupplies()
	for _, c := range b.Channels {
		ix.channels[c.Name] = append(ix.channels[c.Name], c)
	}
	for _, list := range ix.channels {
		slices.SortStableFunc(list, func(a, b ledger.Channel) int { return a.FromDate.Compare(b.FromDate) })
	}
	return ix
}

func (ix *index) readPieces() {
	for i := range ix.b.Pieces {
		p := &ix.b.Pieces[i]
		ix.piece[p.ID] = p
		ix.pieces[p.GotOn.InMonth()] = append(ix.pieces[p.GotOn.InMonth()], p)
		if p.Lot != "" {
			ix.lotPieces[p.Lot] = append(ix.lotPieces[p.Lot], p.ID)
		}
	}
	for _, list := range ix.pieces {
		slices.SortFunc(list, func(a, b *ledger.Piece) int { return cmp.Compare(a.ID, b.ID) })
	}
	for _, list := range ix.lotPieces {
		slices.Sort(list)
	}
}

func (ix *index) readSupplies() {
	for i := range ix.b.Supplies {
		s := &ix.b.Supplies[i]
		ix.supply[s.Name] = s
		ix.supplies = append(ix.supplies, s.Name)
	}
	slices.Sort(ix.supplies)
	for _, p := range ix.b.Purchases {
		ix.purchases[p.Supply] = append(ix.purchases[p.Supply], p)
	}
	for _, list := range ix.purchases {
		slices.SortStableFunc(list, compareLayers)
	}
	for _, c := range ix.b.Counts {
		m := c.Closes()
		if ix.counts[m] == nil {
			ix.counts[m] = map[string][]ledger.Count{}
		}
		ix.counts[m][c.Supply] = append(ix.counts[m][c.Supply], c)
	}
	for _, bySupply := range ix.counts {
		for _, list := range bySupply {
			slices.SortStableFunc(list, func(a, b ledger.Count) int { return a.On.Compare(b.On) })
		}
	}
}

// compareLayers orders purchases as their layers lie: by date, then cheaper
// per unit first, then smaller.
func compareLayers(a, b ledger.Purchase) int {
	if c := a.On.Compare(b.On); c != 0 {
		return c
	}
	if a.Amount.Sign() != 0 && b.Amount.Sign() != 0 {
		perA, perB := quo(a.Total().Rat(), a.Amount), quo(b.Total().Rat(), b.Amount)
		if c := perA.Cmp(perB); c != 0 {
			return c
		}
	}
	return a.Amount.Cmp(b.Amount)
}

// byMonth parts records by the month of their date, each month by date.
func byMonth[R any](records []R, on func(R) calendar.Date) map[calendar.Month][]R {
	out := map[calendar.Month][]R{}
	for _, r := range records {
		m := on(r).InMonth()
		out[m] = append(out[m], r)
	}
	for _, list := range out {
		slices.SortStableFunc(list, func(a, b R) int { return on(a).Compare(on(b)) })
	}
	return out
}

// sorted is the pieces of a list in the order they share in, each once.
func sorted(pieces []string) []string {
	out := slices.Clone(pieces)
	slices.Sort(out)
	return slices.Compact(out)
}
