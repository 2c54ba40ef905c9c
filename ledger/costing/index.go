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
	room      []ledger.Posting                   // where one month after the other gathers its own
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
		uses:      byMonth(b.Uses),
		parts:     byMonth(b.Parts),
		hours:     byMonth(b.Hours),
		trips:     byMonth(b.Trips),
		expenses:  byMonth(b.Expenses),
		equipment: byMonth(b.Equipment),
		sales:     byMonth(b.Sales),
		moves:     byMonth(b.Moves),
		removals:  byMonth(b.Removals),
		income:    byMonth(b.OtherIncome),
		taxPaid:   byMonth(b.TaxPaid),
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
	for p := range ledger.Each(ix.b.Pieces) {
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
	for s := range ledger.Each(ix.b.Supplies) {
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

// byMonth is records by the month they count in, each month's by date.
func byMonth[R any, P ledger.PointerTo[R]](records []R) map[calendar.Month][]R {
	type dated struct {
		on    calendar.Date
		month calendar.Month
		at    int
	}
	all := make([]dated, len(records))
	for i := range records {
		r := ledger.RecordOf(P(&records[i]))
		all[i] = dated{r.On, r.Month, i}
	}
	slices.SortStableFunc(all, func(a, b dated) int { return a.on.Compare(b.on) })
	out := map[calendar.Month][]R{}
	for _, d := range all {
		out[d.month] = append(out[d.month], records[d.at])
	}
	return out
}
