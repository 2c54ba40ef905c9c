package report

import (
	"cmp"
	"slices"

	"piecebook/ledger/calendar"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// SoldOfKind is all pieces of a kind sold up to the period's end.
type SoldOfKind struct {
	Pieces []*figures.Piece

	// What they are compared by; see By.
	hourly, profit *Spread
}

// Spread is what the pieces of a kind have of one figure.
type Spread struct {
	Sorted []money.Cents
	By     []*figures.Piece // whose each amount of Sorted is
	Median money.Cents
	First  calendar.Month // of the first sale among them
}

// SoldOfKind is the pieces of a kind. Asked for once a kind, as OfPiece is for all
// pieces: most pieces are of few kinds.
func (in *Input) SoldOfKind(kind string) *SoldOfKind {
	if out := in.ofKinds[kind]; out != nil {
		return out
	}
	out := &SoldOfKind{}
	for i := range in.All {
		p := &in.All[i]
		if p.Status == "sold" && p.Profit != nil && p.SoldOn.InMonth() <= in.Month.To &&
			templates.KindKey(p.Record.Kind) == templates.KindKey(kind) {
			out.Pieces = append(out.Pieces, p)
		}
	}
	if in.ofKinds == nil {
		in.ofKinds = map[string]*SoldOfKind{}
	}
	in.ofKinds[kind] = out
	return out
}

// ByHour is the spread of the hours after shop costs.
func (k *SoldOfKind) ByHour() *Spread {
	if k.hourly == nil {
		k.hourly = k.spread(func(p *figures.Piece) *money.Cents { return p.ProfitPerHourAfterOverhead })
	}
	return k.hourly
}

// ByProfit is the spread of the profits after shop costs.
func (k *SoldOfKind) ByProfit() *Spread {
	if k.profit == nil {
		k.profit = k.spread(func(p *figures.Piece) *money.Cents { return p.ProfitAfterOverhead })
	}
	return k.profit
}

func (k *SoldOfKind) spread(of func(*figures.Piece) *money.Cents) *Spread {
	out := &Spread{}
	for _, p := range k.Pieces {
		if c := of(p); c != nil {
			if month := p.SoldOn.InMonth(); len(out.By) == 0 || month < out.First {
				out.First = month
			}
			out.By = append(out.By, p)
		}
	}
	slices.SortStableFunc(out.By, func(a, b *figures.Piece) int { return cmp.Compare(*of(a), *of(b)) })
	for _, p := range out.By {
		out.Sorted = append(out.Sorted, *of(p))
	}
	out.Median, _ = money.Median(out.Sorted)
	return out
}

// Above is how many pieces have more than an amount.
func (s *Spread) Above(c money.Cents) int {
	at, _ := slices.BinarySearch(s.Sorted, c+1)
	return len(s.Sorted) - at
}

// Thinned are at most some so many of the amounts, the least and the greatest
// among them: of amounts that lie closer together than that, one.
func (s *Spread) Thinned(most int) []money.Cents {
	least, greatest := s.Sorted[0], s.Sorted[len(s.Sorted)-1]
	apart := (greatest - least) / money.Cents(most)
	out := []money.Cents{least}
	for _, c := range s.Sorted {
		if c-out[len(out)-1] > apart {
			out = append(out, c)
		}
	}
	if out[len(out)-1] != greatest {
		out = append(out, greatest)
	}
	return out
}
