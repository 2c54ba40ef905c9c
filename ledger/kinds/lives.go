package kinds

import (
	"cmp"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// Life is a piece with what its kind is judged by.
type Life struct {
	figures.Piece
	Kind string // as most of its kind are spelt
	// Judged says that it left in a way that counts: sold, scrapped or stolen,
	// and not a client's.
	Judged bool
	Left   calendar.Date // the day it was sold or removed; zero while it is here
	// Result is its profit and what was received for it where it was lost.
	Result money.Cents
	Coated *big.Rat // sq ft (sq m) × coats over all uses; zero where none
	// Sale is the Sales line it is sold by; pieces that share it share its
	// price. Zero where it is not sold.
	Sale    fault.Place
	Channel string // of that line; blank where none is named or it is not sold
}

// Timed says that hours are written down for it.
func (l Life) Timed() bool { return l.Hours != nil && l.Hours.Sign() > 0 }

// ByHour says that it counts in profit an hour: hours are written down, or it
// was lost before any work, with its loss and no hours.
func (l Life) ByHour() bool { return l.Judged && (l.Timed() || !l.Sold()) }

// Sold says that it is sold and has not come back.
func (l Life) Sold() bool { return l.Status == costing.Sold }

// Client says that it is a customer's own.
func (l Life) Client() bool { return l.Record.How == ledger.Client }

// Lives is every piece the books know by the ledger's last month, by piece.
func Lives(l *costing.Ledger) []Life { return LivesOf(l, figures.All(l)) }

// LivesOf is Lives for who has the figures of every piece already.
func LivesOf(l *costing.Ledger, pieces []figures.Piece) []Life {
	if len(l.Months) == 0 {
		return nil
	}
	end := l.Months[len(l.Months)-1].Month
	coated := map[string]*big.Rat{}
	for _, c := range costing.Coatings(l.Books) {
		if c.On.InMonth() > end {
			continue
		}
		if coated[c.Piece] == nil {
			coated[c.Piece] = new(big.Rat)
		}
		coated[c.Piece].Add(coated[c.Piece], c.Area)
	}
	removed := map[string]calendar.Date{}
	for _, x := range l.Books.Removals {
		if x.On.InMonth() <= end {
			removed[x.Piece] = x.On
		}
	}
	sale := standingSales(l.Books, end)
	spelling := spellings(pieces)
	out := make([]Life, len(pieces))
	for i, p := range pieces {
		life := Life{Piece: p, Kind: spelling[templates.KindKey(p.Record.Kind)], Left: p.SoldOn, Coated: coated[p.Record.ID]}
		if life.Coated == nil {
			life.Coated = new(big.Rat)
		}
		switch p.Status {
		case costing.InStock, "client", costing.Sold:
		default:
			life.Left = removed[p.Record.ID]
		}
		life.Judged = !life.Client() && slices.Contains([]string{costing.Sold, ledger.Scrapped, ledger.Stolen}, p.Status)
		if p.Status == costing.Sold {
			life.Sale, life.Channel = sale[p.Record.ID].At, strings.TrimSpace(sale[p.Record.ID].Channel)
		}
		if p.Profit != nil {
			life.Result = *p.Profit + p.ReceivedWhenLost
		}
		out[i] = life
	}
	return out
}

// standingSales is each piece's last sale line up to a month.
func standingSales(b *ledger.Books, end calendar.Month) map[string]*ledger.Sale {
	out := map[string]*ledger.Sale{}
	for s := range ledger.Each(b.Sales) {
		if s.Type != ledger.SaleLine || s.On.InMonth() > end {
			continue
		}
		for _, id := range s.Pieces {
			if before := out[id]; before == nil || !s.On.Before(before.On) {
				out[id] = s
			}
		}
	}
	return out
}

// spellings is each kind as most of its pieces spell it; of two spellings as
// common, the first in code-point order.
func spellings(pieces []figures.Piece) map[string]string {
	counts := map[string]map[string]int{}
	for _, p := range pieces {
		key := templates.KindKey(p.Record.Kind)
		if counts[key] == nil {
			counts[key] = map[string]int{}
		}
		counts[key][strings.TrimSpace(p.Record.Kind)]++
	}
	out := map[string]string{}
	for key, of := range counts {
		best := ""
		for spelt, n := range of {
			if best == "" || n > of[best] || n == of[best] && spelt < best {
				best = spelt
			}
		}
		out[key] = best
	}
	return out
}

// ByLeaving orders pieces by the day they left, then by piece.
func ByLeaving(a, b Life) int {
	return cmp.Or(a.Left.Compare(b.Left), cmp.Compare(a.Record.ID, b.Record.ID))
}
