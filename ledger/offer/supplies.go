package offer

import (
	"cmp"
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/costing"
	"piecebook/ledger/kinds"
	"piecebook/ledger/money"
)

// Supply is what one supply would cost on the piece in view.
type Supply struct {
	Name  string
	Work  *big.Rat     // what it is expected to do on the piece: area × coats, hours, or 1 for the piece's months
	Unit  string       // area, hours or pieces; blank: not worked out by its work
	Does  *big.Rat     // what a container does
	Basis ledger.Basis // own, bought, stated or starting; NoBasis where it is what pieces bore
	Price money.Cents  // of a container, as last bought
	Cents money.Cents  // Work ÷ Does × Price, rounded once
}

// supplies is each supply's cost: the work that the kind's pieces had of it,
// brought to this piece's area or hours, by what a container of it really
// does and costs now. Where that is not known (measured uses, coverage all,
// no coverage, never bought) it is what the kind's pieces bore.
func (p past) supplies(l *costing.Ledger, area, hours float64) (out []Supply, coated float64) {
	pieces := soldOf(p.mine)
	if len(pieces) == 0 {
		pieces = soldOf(p.all)
	}
	w := workOf(l, pieces)
	end := l.Months[len(l.Months)-1]
	for i := range l.Books.Supplies {
		s := &l.Books.Supplies[i]
		if x, ok := w.supply(l, s, end, area, hours); ok {
			out = append(out, x)
		}
	}
	slices.SortFunc(out, func(a, b Supply) int { return cmp.Or(cmp.Compare(b.Cents, a.Cents), cmp.Compare(a.Name, b.Name)) })
	for _, x := range pieces {
		coated += w.bench[x.Record.ID]
	}
	if w.pieces == 0 {
		return out, 0
	}
	return out, coated * w.scale(area, w.area)
}

func soldOf(pieces []kinds.Life) []kinds.Life {
	var out []kinds.Life
	for _, x := range pieces {
		if x.Sold() {
			out = append(out, x)
		}
	}
	return out
}

// work is what some pieces had of each supply.
type work struct {
	pieces      float64
	area, hours float64            // Σ
	coated      map[string]float64 // by supply, Σ area × coats
	bench       map[string]float64 // by piece, over all supplies
	measured    map[string]bool    // by supply: some use says how much
	bore        map[string]float64 // by supply, Σ cents
	worked      map[string]float64 // by supply, Σ of its basis over the pieces that bore some
}

func workOf(l *costing.Ledger, pieces []kinds.Life) work {
	w := work{pieces: float64(len(pieces)), measured: map[string]bool{},
		bore: map[string]float64{}, worked: map[string]float64{}}
	chosen := map[string]bool{}
	for _, x := range pieces {
		chosen[x.Record.ID] = true
		a, _ := areaOf(x)
		h, _ := hoursOf(x)
		w.area, w.hours = w.area+a, w.hours+h
	}
	// Exact sums: the order of the records must not show in the last digit.
	coated, bench := sums{}, sums{}
	for _, c := range costing.Coatings(l.Books) {
		if chosen[c.Piece] {
			coated.add(c.Supply, c.Area)
			bench.add(c.Piece, c.Area)
			w.measured[c.Supply] = w.measured[c.Supply] || c.Measured
		}
	}
	w.coated, w.bench = coated.floats(), bench.floats()
	basis := map[string]ledger.ShareBy{}
	for _, s := range l.Books.Supplies {
		basis[s.Name] = s.ShareBy
	}
	for _, x := range pieces {
		w.bear(x, basis)
	}
	return w
}

// sums are exact totals by name.
type sums map[string]*big.Rat

func (s sums) add(name string, x *big.Rat) {
	if s[name] == nil {
		s[name] = new(big.Rat)
	}
	s[name].Add(s[name], x)
}

func (s sums) floats() map[string]float64 {
	out := map[string]float64{}
	for name, x := range s {
		out[name], _ = x.Float64()
	}
	return out
}

// bear adds what one piece bore of each supply, and what of it was worked.
func (w *work) bear(x kinds.Life, basis map[string]ledger.ShareBy) {
	months := map[string]float64{}
	for _, share := range x.Shares {
		w.bore[share.Supply] += float64(share.Cost)
		months[share.Supply]++
	}
	h, _ := hoursOf(x)
	for name, n := range months {
		switch basis[name] {
		case ledger.ByBench:
			w.worked[name] += w.bench[x.Record.ID]
		case ledger.ByHours:
			w.worked[name] += h
		case ledger.ByPieces:
			w.worked[name] += n
		}
	}
}

// supply is one supply's cost on a piece of so much area and so many hours;
// false where the pieces had nothing of it.
func (w *work) supply(l *costing.Ledger, s *ledger.Supply, end costing.MonthResult, area, hours float64) (Supply, bool) {
	x := Supply{Name: s.Name, Basis: ledger.NoBasis}
	if w.pieces == 0 {
		return x, false
	}
	byArea, byHours := w.scale(area, w.area), w.scale(hours, w.hours)
	scale := byArea // of what the pieces had to this one
	x.Unit = "area"
	done := w.coated[s.Name]
	switch s.ShareBy {
	case ledger.ByBench:
		done = w.worked[s.Name]
	case ledger.ByHours:
		x.Unit, done, scale = "hours", w.worked[s.Name], byHours
	case ledger.ByPieces:
		x.Unit, done, scale = "pieces", w.worked[s.Name], 1/w.pieces
	}
	does, basis := end.Closing.Shelf[s.Name].Coverage(l.Books.Settings.Coverage, s)
	price := kinds.Newest(l.Books, s.Name, end.Month)
	if does == nil || price == nil || w.measured[s.Name] || s.UseAll {
		x.Cents, x.Unit = money.Round(rounded(w.bore[s.Name]*scale, 0)), ""
		return x, x.Cents != 0
	}
	x.Work, x.Does = printed(rounded(done*scale, 6)), printed(does)
	x.Price, x.Basis = *price, basis
	x.Cents = money.Round(new(big.Rat).Quo(new(big.Rat).Mul(x.Work, price.Rat()), x.Does))
	return x, x.Work.Sign() > 0
}

// printed is an amount of work to the decimals that are printed of it: one from
// ten on, two from one on, else four; as it is where nothing would be left.
func printed(x *big.Rat) *big.Rat {
	n := 4
	switch {
	case x.Cmp(big.NewRat(10, 1)) >= 0:
		n = 1
	case x.Cmp(big.NewRat(1, 1)) >= 0:
		n = 2
	}
	if r := money.RoundTo(x, n); r.Sign() > 0 {
		return r
	}
	return x
}

// scale brings a sum over all pieces to one of the given size; where no piece
// has a size, to the average one.
func (w *work) scale(size, sum float64) float64 {
	if sum <= 0 {
		return 1 / w.pieces
	}
	return size / sum
}

// PerCoated is what the supplies come to for a unit of area put on once, over
// all coats; false where nothing is coated.
func (o Offer) PerCoated() (float64, bool) {
	if o.Coated <= 0 {
		return 0, false
	}
	var cents float64
	for _, s := range o.Supplies {
		cents += float64(s.Cents)
	}
	return cents / o.Coated, true
}
